// The findings of `check` as JSON.  Keys, units and meaning: docs/results.md.
#include <algorithm>
#include <string>
#include <vector>

#include "findings_json.hpp"
#include "json.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/output/json.hpp"

namespace stakewright::output {
namespace {

using check::Findings;

const char* word_of(check::Verdict verdict) {
  switch (verdict) {
    case check::Verdict::in:
      return "in";
    case check::Verdict::out:
      return "out";
    case check::Verdict::undecided:
      return "undecided";
    case check::Verdict::contradiction:
      return "contradiction";
  }
  return "";
}

const char* word_of(adjustment::Status status) {
  switch (status) {
    case adjustment::Status::settled:
      return "settled";
    case adjustment::Status::shape_not_fixed:
      return "shape not fixed";
    case adjustment::Status::no_readings:
      return "no readings";
    case adjustment::Status::did_not_settle:
      return "did not settle";
  }
  return "";
}

Json instruments_json(const Findings& findings) {
  Json list = Json::array();
  for (const auto& found : findings.used.instruments) {
    list.push_back({{"name", findings.network.instruments[found.instrument].name},
                    {"scale", number(found.scale)},
                    {"scale_sd", number(found.scale_sd)},
                    {"zero", number(found.zero_m)},
                    {"zero_sd", number(found.zero_sd_m)}});
  }
  return list;
}

Json loose_json(const Findings& findings) {
  Json list = Json::array();
  for (const auto& loose : findings.used.loose) {
    Json would_fix = Json::array();
    for (const auto& tape : loose.would_fix) {
      would_fix.push_back(tape_json(findings, tape.from, tape.to));
    }
    list.push_back({{"corner", label(findings, loose.point)}, {"would_fix", would_fix}});
  }
  return list;
}

Json adjustment_json(const Findings& findings) {
  const auto& used = findings.used;
  return {{"status", word_of(used.status)},
          {"unknowns", used.unknowns},
          {"readings", used.readings},
          {"redundancy", used.redundancy},
          {"variance_factor", number(used.variance_factor)},
          {"chi_square", number(used.chi_square)},
          {"chi_square_limit", number(used.chi_square_limit)},
          {"passed", used.passed},
          {"instruments", instruments_json(findings)},
          {"loose", loose_json(findings)}};
}

Json placement_json(const Findings& findings) {
  if (!findings.placement) return nullptr;
  const auto& placement = *findings.placement;
  Json alternatives = Json::array();
  for (const auto& other : placement.alternatives) alternatives.push_back(labels(findings, other));
  return {{"x", number(placement.rigid.x_m)},
          {"y", number(placement.rigid.y_m)},
          {"turn", number(placement.rigid.turn_rad)},
          {"kept", labels(findings, placement.kept)},
          {"alternatives", alternatives},
          {"proven", placement.proven}};
}

/// A corner whose place is not known has its label and verdict; its figures are null.
Json corner_json(const std::string& name, const placement::CornerResult& corner, bool measured) {
  const auto figure = [measured](double value) { return measured ? number(value) : Json(nullptr); };
  Json ellipse = nullptr;
  if (measured) {
    ellipse = {{"major", number(corner.ellipse.major_m)},
               {"minor", number(corner.ellipse.minor_m)},
               {"bearing", number(corner.ellipse.bearing_rad)}};
  }
  return {{"label", name},
          {"x", figure(corner.found.x_m)},
          {"y", figure(corner.found.y_m)},
          {"outward", figure(corner.outward_m)},
          {"sideways", figure(corner.sideways_m)},
          {"off", figure(corner.off_m)},
          {"chance_in", figure(corner.chance_in)},
          {"verdict", verdict_word(corner.verdict)},
          {"ellipse", ellipse}};
}

/// How far the corner's footing is off level, and its verdict; null when no rod was read on it.
void add_level(const Findings& findings, std::size_t corner, Json& json) {
  const bool leveled = findings.levels && findings.levels->footings[corner].known;
  json["level"] = nullptr;
  json["level_verdict"] = nullptr;
  if (!leveled) return;
  json["level"] = number(findings.levels->footings[corner].off_m);
  json["level_verdict"] = verdict_word(findings.levels->footings[corner].verdict);
}

Json corners_json(const Findings& findings) {
  Json list = Json::array();
  for (std::size_t i = 0; i < findings.network.corner_count; ++i) {
    const bool placed = findings.placement && findings.survey;
    const auto corner = placed ? findings.placement->corners[i] : placement::CornerResult{};
    list.push_back(corner_json(label(findings, i), corner, placed && findings.survey->measured[i]));
    add_level(findings, i, list.back());
  }
  return list;
}

/// Least squares over all corners, for comparison: how far off it calls each.
Json least_squares_json(const Findings& findings) {
  if (!findings.least_squares) return nullptr;
  Json corners = Json::array();
  for (std::size_t i = 0; i < findings.least_squares->corners.size(); ++i) {
    const auto& corner = findings.least_squares->corners[i];
    const bool measured = findings.survey && findings.survey->measured[i];
    const auto figure = [measured](double v) { return measured ? number(v) : Json(nullptr); };
    corners.push_back({{"label", label(findings, i)},
                       {"outward", figure(corner.outward_m)},
                       {"sideways", figure(corner.sideways_m)},
                       {"off", figure(corner.off_m)}});
  }
  const auto& rigid = findings.least_squares->rigid;
  return {{"x", number(rigid.x_m)},
          {"y", number(rigid.y_m)},
          {"turn", number(rigid.turn_rad)},
          {"corners", corners}};
}

const char* word_of(readings::Cause cause) {
  switch (cause) {
    case readings::Cause::burned:
      return "burned";
    case readings::Cause::standardization:
      return "standardization";
    case readings::Cause::temperature:
      return "temperature";
    case readings::Cause::pull:
      return "pull";
    case readings::Cause::sag:
      return "sag";
    case readings::Cause::slope:
      break;
  }
  return "slope";
}

Json corrections_json(const std::vector<readings::Correction>& corrections) {
  Json list = Json::array();
  for (const auto& correction : corrections)
    list.push_back({{"name", word_of(correction.cause)}, {"amount", number(correction.amount_m)}});
  return list;
}

Json readings_json(const Findings& findings) {
  Json list = Json::array();
  for (std::size_t i = 0; i < findings.used.readings_out.size(); ++i) {
    const auto& seen = findings.network.observations[i];
    const auto& out = findings.used.readings_out[i];
    const auto& instrument = findings.network.instruments[seen.instrument];
    list.push_back({{"kind", readings::word_of(instrument.kind)},
                    {"from", label(findings, seen.from)},
                    {"to", label(findings, seen.to)},
                    {"at", seen.at ? Json(label(findings, *seen.at)) : Json(nullptr)},
                    {"instrument", instrument.name},
                    {"reading", number(seen.read)},
                    {"corrections", corrections_json(seen.corrections)},
                    {"corrected", number(seen.corrected)},
                    {"sd", number(seen.sd)}});
    add_adjusted(out, list.back());
  }
  add_level_readings(findings, list);
  return list;
}

/// Instruments that read the same pairs.
Json same_pairs_json(const Findings& findings) {
  Json list = Json::array();
  for (const auto& same : findings.same_pairs) {
    list.push_back({{"instrument", findings.network.instruments[same.instrument].name},
                    {"against", findings.network.instruments[same.against].name},
                    {"pairs", same.pairs},
                    {"more", number(same.more_m)},
                    {"more_sd", number(same.sd_m)},
                    {"scale", number(same.scale)},
                    {"scale_sd", number(same.scale_sd)},
                    {"differ", same.differ}});
  }
  return list;
}

Json moves_json(const Findings& findings) {
  Json list = Json::array();
  for (const auto& move : findings.moves) {
    Json tapes = Json::array();
    for (const auto& tape : move.tapes) {
      tapes.push_back({{"from", label(findings, tape.from)}, {"length", number(tape.length_m)}});
    }
    list.push_back({{"stake", label(findings, move.corner)},
                    {"outward", number(move.outward_m)},
                    {"sideways", number(move.sideways_m)},
                    {"distance", number(move.distance_m)},
                    {"tapes", tapes},
                    {"crossing", number(move.crossing_rad)},
                    {"predicted_chance_in", number(move.predicted_chance_in)}});
  }
  return list;
}

}  // namespace

void add_adjusted(const adjustment::AdjustedReading& reading, Json& json) {
  json["adjusted"] = number(reading.adjusted);
  json["residual"] = number(reading.residual);
  json["standardized"] = number(reading.standardized);
  json["redundancy"] = number(reading.redundancy);
  json["smallest_catch"] = number(reading.smallest_catch);
  json["excluded"] = reading.excluded;
  json["used"] = reading.used;
}

const char* verdict_word(placement::Verdict verdict) {
  switch (verdict) {
    case placement::Verdict::in:
      return "in";
    case placement::Verdict::out:
      return "out";
    case placement::Verdict::undecided:
      return "undecided";
  }
  return "";
}

std::string check_json(const job::Job& job, const check::Findings& findings,
                       const wording::Voice& voice) {
  Json json = opened("check", job.title);
  json["round"] = findings.round.empty() ? Json(nullptr) : Json(findings.round);
  json["rounds"] = findings.rounds;
  json["verdict"] = word_of(findings.verdict);
  json["adjustment"] = adjustment_json(findings);
  json["placement"] = placement_json(findings);
  json["corners"] = corners_json(findings);
  json["readings"] = readings_json(findings);
  json["suspects"] = suspects_json(findings, voice);
  json["of_another_job"] = findings.suspects.of_another_job;
  json["levels"] = levels_json(job, findings);
  json["moves"] = moves_json(findings);
  json["tape_next"] = tape_next_json(findings, voice);
  json["same_pairs"] = same_pairs_json(findings);
  json["movement"] = movement_json(findings, voice);
  json["least_squares"] = least_squares_json(findings);
  json["remarks"] = told_json(findings.remarks, voice);
  return text_of_json(json);
}

}  // namespace stakewright::output
