// The suspects of a check as JSON.  Keys, units and meaning: docs/results.md.
#include "findings_json.hpp"

namespace stakewright::output {
namespace {

using check::Findings;

Json reading_cause(const Findings& findings, const suspects::Cause& cause) {
  Json json = {{"what", "reading"}};
  json.update(observed_pair(findings, cause.index));
  json["size"] = number(cause.size);
  json["slip"] = cause.slip.empty() ? Json(nullptr) : Json(cause.slip);
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

Json suspects_json(const check::Findings& findings) {
  Json list = Json::array();
  for (const auto& explanation : findings.suspects.ranked) {
    Json causes = Json::array();
    for (const auto& cause : explanation.causes) causes.push_back(cause_json(findings, cause));
    list.push_back({{"chance", number(explanation.chance)},
                    {"causes", causes},
                    {"words", explanation.words},
                    {"alike", explanation.alike}});
  }
  list.push_back({{"chance", number(findings.suspects.rest)},
                  {"causes", nullptr},
                  {"words", "something else"},
                  {"alike", Json::array()}});
  return list;
}

}  // namespace stakewright::output
