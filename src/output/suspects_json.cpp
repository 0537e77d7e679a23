// The suspects of a check as JSON.  Keys, units and meaning: docs/results.md.
#include "findings_json.hpp"
#include "stakewright/told/suspects.hpp"

namespace stakewright::output {
namespace {

using check::Findings;

const char* word_of(suspects::SlipKind kind) {
  using suspects::SlipKind;
  switch (kind) {
    case SlipKind::foot:
      return "foot";
    case SlipKind::inch:
      return "inch";
    case SlipKind::meter:
      return "meter";
    case SlipKind::decimeter:
      return "decimeter";
    case SlipKind::centimeter:
      return "centimeter";
    case SlipKind::burned:
      return "burned";
    case SlipKind::digits:
      return "digits";
    case SlipKind::eighth:
      return "eighth";
    case SlipKind::tenths:
      return "tenths";
    case SlipKind::wrong_stake:
      return "wrong_stake";
    case SlipKind::degree:
      return "degree";
    case SlipKind::ten_degrees:
      return "ten_degrees";
    case SlipKind::half_degree:
      return "half_degree";
    case SlipKind::ten_minutes:
      return "ten_minutes";
    case SlipKind::turned_back:
      return "turned_back";
    case SlipKind::half_turn:
      return "half_turn";
    case SlipKind::any:
      break;
  }
  return "";
}

/// What a slip looks like; null when it looks like no one kind.
Json slip_json(const Findings& findings, const std::optional<suspects::SlipLook>& slip) {
  if (!slip) return nullptr;
  Json instead = Json::array();
  for (const suspects::Between& points : slip->instead_of) {
    instead.push_back(tape_json(findings, points.from, points.to));
    if (points.at) instead.back()["at"] = label(findings, *points.at);
  }
  return {{"kind", word_of(slip->kind)}, {"times", slip->times}, {"instead_of", instead}};
}

Json reading_cause(const Findings& findings, const suspects::Cause& cause) {
  Json json = {{"what", "reading"}};
  json.update(observed_pair(findings, cause.index));
  json["size"] = number(cause.size);
  json["slip"] = slip_json(findings, cause.slip);
  return json;
}

Json instrument_cause(const Findings& findings, const suspects::Cause& cause, const char* key) {
  return {{"what", "instrument"},
          {"name", findings.network.instruments[cause.index].name},
          {key, number(cause.size)}};
}

Json stake_cause(const Findings& findings, const suspects::Cause& cause) {
  return {{"what", "stake"},
          {"label", label(findings, cause.index)},
          {"outward", number(cause.outward_m)},
          {"sideways", number(cause.sideways_m)}};
}

/// A tape pulled to another stake than the one written down.
Json wrong_stake_cause(const Findings& findings, const suspects::Cause& cause) {
  Json json = {{"what", "wrong_stake"}};
  json.update(observed_pair(findings, cause.index));
  json["held"] = cause.held ? Json(label(findings, *cause.held)) : Json(nullptr);
  json["pulled_to"] = label(findings, cause.other.value_or(cause.index));
  return json;
}

Json cause_json(const Findings& findings, const suspects::Cause& cause) {
  using What = suspects::Cause::What;
  const std::size_t other = cause.other.value_or(cause.index);
  switch (cause.what) {
    case What::reading:
      return reading_cause(findings, cause);
    case What::stake:
      return stake_cause(findings, cause);
    case What::instrument_zero:
      return instrument_cause(findings, cause, "zero");
    case What::instrument_scale:
      return instrument_cause(findings, cause, "scale");
    case What::labels:
      return {{"what", "labels"}, {"labels", labels(findings, {cause.index, other})}};
    case What::rows:
      return {{"what", "rows"},
              {"rows", {observed_pair(findings, cause.index), observed_pair(findings, other)}}};
    case What::wrong_stake:
      return wrong_stake_cause(findings, cause);
  }
  return nullptr;
}

}  // namespace

Json suspects_json(const check::Findings& findings, const wording::Voice& voice) {
  Json list = Json::array();
  for (const auto& explanation : findings.suspects.ranked) {
    Json causes = Json::array();
    for (const auto& cause : explanation.causes) causes.push_back(cause_json(findings, cause));
    list.push_back({{"chance", number(explanation.chance)},
                    {"causes", causes},
                    {"words", voice.text(told::explanation(findings.network, explanation.causes))},
                    {"alike", explanation.alike}});
  }
  list.push_back({{"chance", number(findings.suspects.rest)},
                  {"causes", nullptr},
                  {"words", voice.text(base::Fact{"suspects.something_else"})},
                  {"alike", Json::array()}});
  return list;
}

}  // namespace stakewright::output
