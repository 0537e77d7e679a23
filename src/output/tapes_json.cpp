// The tape plan, and the next tapes, as JSON.  Keys, units and meaning: docs/results.md.
#include "findings_json.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/output/json.hpp"
#include "stakewright/told/suspects.hpp"

namespace stakewright::output {

Json tape_next_json(const check::Findings& findings, const wording::Voice& voice) {
  Json list = Json::array();
  for (const auto& next : findings.tape_next) {
    Json entry = tape_json(findings, next.from, next.to);
    entry["repeat"] = next.repeat;
    entry["another_tape"] = next.another_tape;
    entry["settles"] = number(next.settles);
    entry["pulls_until_clear"] = number(next.pulls_until_clear);
    entry["why"] = voice.text(told::why(findings, next));
    list.push_back(entry);
  }
  return list;
}

std::string tapes_json(const job::Job& job, const suspects::TapePlan& plan,
                       const wording::Voice& voice) {
  Json json = opened("tapes", job.title);
  json["plan"] = Json::array();
  for (const suspects::PlannedPull& pull : plan.pulls)
    json["plan"].push_back({{"from", pull.from},
                            {"to", pull.to},
                            {"length", number(pull.length_m)},
                            {"smallest_catch", number(pull.smallest_catch_m)},
                            {"smallest_named", number(pull.smallest_named_m)}});
  json["corners"] = Json::array();
  for (const suspects::PlannedCorner& corner : plan.corners)
    json["corners"].push_back(
        {{"label", corner.label}, {"smallest_shift", number(corner.smallest_shift_m)}});
  json["reached"] = plan.reached;
  json["walk"] = number(plan.walk_m);
  json["misses"] = told_json(plan.misses, voice);
  return text_of_json(json);
}

std::string next_tapes_json(const job::Job& job, const check::Findings& findings,
                            const wording::Voice& voice) {
  Json json = opened("tapes", job.title);
  json["tape_next"] = tape_next_json(findings, voice);
  return text_of_json(json);
}

}  // namespace stakewright::output
