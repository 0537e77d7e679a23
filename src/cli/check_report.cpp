#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "language.hpp"
#include "reports.hpp"
#include "stakewright/base/angle.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/told/corrections.hpp"
#include "stakewright/told/levels.hpp"
#include "stakewright/told/movement.hpp"
#include "words.hpp"

namespace stakewright::cli {
namespace {

using base::text_from_length;
using base::text_from_small_length;
using check::Findings;

const std::string& label(const Findings& findings, std::size_t point) {
  return findings.network.points[point].label;
}

Row corner_row(const Findings& findings, std::size_t i, const Shown& shown) {
  const auto& corner = findings.placement->corners[i];
  if (!findings.survey->measured[i]) {
    return {label(findings, i), "not fixed", "", "", "", "", verdict_word(corner.verdict)};
  }
  return {label(findings, i),
          directed(corner.outward_m, kOutward, shown.units, Step::tape),
          directed(corner.sideways_m, kSideways, shown.units, Step::tape),
          text_from_length(corner.off_m, shown.units),
          text_from_small_length(corner.ellipse.major_m, shown.units),
          percent(corner.chance_in),
          verdict_word(corner.verdict)};
}

std::string corners_section(const job::Job& job, const Findings& findings, const Shown& shown) {
  std::vector<Row> rows;
  for (std::size_t i = 0; i < findings.placement->corners.size(); ++i) {
    rows.push_back(corner_row(findings, i, shown));
  }
  const std::string title = fmt::format(
      "Corners: tolerance {}, a verdict needs a chance of {:.0f} %",
      text_from_length(job.tolerance.corner_m, shown.units), 100 * job.tolerance.confidence);
  return heading(title, shown.emphasis) + table({{"corner"},
                                                 {"outward or inward", Align::right},
                                                 {"sideways", Align::right},
                                                 {"off", Align::right},
                                                 {"give or take", Align::right},
                                                 {"chance in", Align::right},
                                                 {"verdict"}},
                                                rows, shown.emphasis);
}

std::string placement_line(const Findings& findings) {
  std::vector<std::string> kept;
  for (const std::size_t i : findings.placement->kept) kept.push_back(label(findings, i));
  std::string text =
      fmt::format("The plan is laid on {}, for the fewest moves.", base::joined(kept));
  for (const auto& other : findings.placement->alternatives) {
    std::vector<std::string> names;
    for (const std::size_t i : other) names.push_back(label(findings, i));
    text += fmt::format(" As many stakes stay if it is laid on {}.", base::joined(names));
  }
  return paragraph(text);
}

std::string moves_section(const Findings& findings, const Shown& shown) {
  std::vector<Row> rows;
  for (const auto& move : findings.moves) {
    Row row{label(findings, move.corner),
            directed(move.outward_m, kOutward, shown.units, Step::tape),
            directed(move.sideways_m, kSideways, shown.units, Step::tape)};
    for (std::size_t i = 0; i < 2; ++i) {
      const bool there = move.tapes.size() == 2;
      row.push_back(there ? label(findings, move.tapes[i].from) : "-");
      row.push_back(there ? text_from_length(move.tapes[i].length_m, shown.units) : "-");
    }
    row.push_back(move.tapes.size() == 2 ? base::text_from_angle(move.crossing_rad) : "-");
    row.push_back(percent(move.predicted_chance_in));
    rows.push_back(std::move(row));
  }
  return heading("Moves, in working order", shown.emphasis) + table({{"stake"},
                                                                     {"move", Align::right},
                                                                     {"and", Align::right},
                                                                     {"hold at"},
                                                                     {"pull", Align::right},
                                                                     {"hold at"},
                                                                     {"pull", Align::right},
                                                                     {"crossing", Align::right},
                                                                     {"then in", Align::right}},
                                                                    rows, shown.emphasis);
}

Row reading_row(const Findings& findings, std::size_t i, const Shown& shown) {
  const auto& seen = findings.network.observations[i];
  const auto& out = findings.used.readings_out[i];
  const auto text = [&](double value) {
    return seen.is_angle() ? base::dms_from_angle(value) : text_from_length(value, shown.units);
  };
  return {reading_name(findings.network, i),
          findings.network.instruments[seen.instrument].name,
          text(seen.read),
          text(out.adjusted),
          seen.is_angle() ? directed_angle(-out.residual, {"large", "small"})
                          : directed(-out.residual, {"long", "short"}, shown.units, Step::fine),
          fmt::format("{:.1f}", std::abs(out.standardized)),
          std::isfinite(out.smallest_catch) ? text(out.smallest_catch) : "none",
          out.excluded ? "left out" : ""};
}

/// How an angle is named, by the first one there is.
std::string angle_note(const Findings& findings) {
  const auto& all = findings.network.observations;
  const auto angle =
      std::find_if(all.begin(), all.end(), [](const auto& reading) { return reading.is_angle(); });
  if (angle == all.end()) return "";
  return paragraph(fmt::format(
      "{} is an angle: turned at {}, clockwise, from {} to {}, in degrees-minutes-seconds.",
      reading_name(findings.network, static_cast<std::size_t>(angle - all.begin())),
      label(findings, *angle->at), label(findings, angle->from), label(findings, angle->to)));
}

std::string readings_section(const Findings& findings, const Shown& shown) {
  std::vector<Row> rows;
  for (std::size_t i = 0; i < findings.used.readings_out.size(); ++i) {
    rows.push_back(reading_row(findings, i, shown));
  }
  return heading("Readings", shown.emphasis) +
         table({{"pull"},
                {"with"},
                {"read", Align::right},
                {"adjusted", Align::right},
                {"reads", Align::right},
                {"in own spreads", Align::right},
                {"smallest slip seen", Align::right},
                {""}},
               rows, shown.emphasis) +
         angle_note(findings);
}

std::string suspects_section(const Findings& findings, const Shown& shown) {
  std::vector<Row> rows;
  for (const auto& explanation : findings.suspects.ranked) {
    std::string words = explanation.words;
    if (!explanation.alike.empty()) {
      std::vector<std::string> others;
      for (const std::size_t other : explanation.alike) others.push_back(std::to_string(other + 1));
      words += fmt::format(" (the numbers cannot tell this from {})", base::joined(others));
    }
    rows.push_back({std::to_string(rows.size() + 1), percent(explanation.chance), words});
  }
  rows.push_back({"", percent(findings.suspects.rest), "something else"});
  return heading("What the numbers may mean, weighed from the plan", shown.emphasis) +
         table({{"", Align::right}, {"chance", Align::right}, {"cause"}}, rows, shown.emphasis);
}

std::string next_section(const Findings& findings, const Shown& shown) {
  std::vector<Row> rows;
  for (const auto& next : findings.tape_next) {
    rows.push_back({tape_name(label(findings, next.from), label(findings, next.to)),
                    next.repeat ? "again" : "new", next.why});
  }
  return heading("Worth pulling next", shown.emphasis) +
         table({{"pull"}, {""}, {"why"}}, rows, shown.emphasis);
}

std::string comparison_section(const Findings& findings, const Shown& shown) {
  std::vector<Row> rows;
  for (std::size_t i = 0; i < findings.least_squares->corners.size(); ++i) {
    if (!findings.survey->measured[i]) continue;
    const auto& corner = findings.least_squares->corners[i];
    rows.push_back({label(findings, i),
                    text_from_length(findings.placement->corners[i].off_m, shown.units),
                    text_from_length(corner.off_m, shown.units),
                    directed(corner.outward_m, kOutward, shown.units, Step::tape),
                    directed(corner.sideways_m, kSideways, shown.units, Step::tape)});
  }
  return heading(
             "For comparison only: least squares over all corners smears one bad corner over "
             "the rest",
             shown.emphasis) +
         table({{"corner"},
                {"off, fewest moves", Align::right},
                {"off, least squares", Align::right},
                {"outward or inward", Align::right},
                {"sideways", Align::right}},
               rows, shown.emphasis);
}

std::string adjustment_section(const Findings& findings, const Shown& shown) {
  const auto& used = findings.used;
  std::vector<Row> rows{{"readings used", fmt::format("{} of {}", used.readings,
                                                      findings.network.observations.size())},
                        {"unknowns", std::to_string(used.unknowns)},
                        {"redundancy", std::to_string(used.redundancy)}};
  if (used.redundancy > 0) {
    rows.push_back({"variance factor", fmt::format("{:.2f}", used.variance_factor)});
    rows.push_back({"chi-square",
                    fmt::format("{:.2f}, limit {:.2f}: {}", used.chi_square, used.chi_square_limit,
                                used.passed ? "the readings agree" : "the readings disagree")});
  }
  return heading("Adjustment", shown.emphasis) + table({{""}, {""}}, rows, shown.emphasis);
}

std::string cautions() {
  return paragraph(
      "Check the tape against a known length first, and measure twice before a pour. Sizes, "
      "footing "
      "depth and fixings follow the local code and a licensed designer.");
}

}  // namespace

std::string check_report(const job::Job& job, const Findings& findings, const Shown& shown) {
  const wording::Voice voice = spoken_voice(shown.units);
  std::string text = heading(job.title, shown.emphasis);
  text += '\n' + text_of(told::round_line(findings), voice) +
          paragraph(check_opening(findings, job.tolerance, shown.units));
  text += text_of(told::movement_opening(findings), voice);
  const bool placed = findings.placement && findings.survey;
  if (placed) {
    text += '\n' + corners_section(job, findings, shown);
    text += placement_line(findings);
  }
  text += text_of(told::levels_sections(job, findings), voice, shown.emphasis);
  if (check::only_levels(findings)) return text + '\n' + cautions();
  if (!findings.moves.empty()) text += '\n' + moves_section(findings, shown);
  text += text_of(told::movement_sections(findings), voice, shown.emphasis);
  if (!findings.used.readings_out.empty()) text += '\n' + readings_section(findings, shown);
  if (shown.corrections)
    text += text_of({told::corrections_section(findings)}, voice, shown.emphasis);
  text += '\n' + suspects_section(findings, shown);
  if (!findings.tape_next.empty()) text += '\n' + next_section(findings, shown);
  if (placed && findings.least_squares) text += '\n' + comparison_section(findings, shown);
  text += '\n' + adjustment_section(findings, shown);
  return text + '\n' + cautions();
}

}  // namespace stakewright::cli
