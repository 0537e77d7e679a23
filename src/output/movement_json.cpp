// What moved between two rounds, as JSON.  Keys, units and meaning: docs/results.md.
#include "findings_json.hpp"

namespace stakewright::output {
namespace {

using check::RoundsCompared;

const char* word_of(placement::Moved moved) {
  switch (moved) {
    case placement::Moved::no:
      return "no";
    case placement::Moved::yes:
      return "yes";
    case placement::Moved::undecided:
      return "undecided";
  }
  return "";
}

Json labels_json(const RoundsCompared& since, const std::vector<std::size_t>& stakes) {
  Json list = Json::array();
  for (const std::size_t stake : stakes) list.push_back(since.labels[stake]);
  return list;
}

/// A stake not measured in both rounds has its label and verdict; its figures are null.
Json stake_json(const std::string& label, const placement::StakeMovement& stake) {
  const bool compared = stake.smallest_shown_m > 0.0;
  const auto figure = [compared](double value) { return compared ? number(value) : Json(nullptr); };
  Json ellipse = nullptr;
  if (compared) {
    ellipse = {{"major", number(stake.ellipse.major_m)},
               {"minor", number(stake.ellipse.minor_m)},
               {"bearing", number(stake.ellipse.bearing_rad)}};
  }
  return {{"label", label},
          {"outward", figure(stake.outward_m)},
          {"sideways", figure(stake.sideways_m)},
          {"distance", figure(stake.distance_m)},
          {"ellipse", ellipse},
          {"by_noise", figure(stake.by_noise)},
          {"chance", figure(stake.chance)},
          {"smallest_shown", figure(stake.smallest_shown_m)},
          {"moved", word_of(stake.moved)}};
}

}  // namespace

Json movement_json(const check::Findings& findings, const wording::Voice& voice) {
  if (!findings.since) return nullptr;
  const RoundsCompared& since = *findings.since;
  Json json = {{"since", since.since}, {"compared", since.movement.has_value()}};
  if (!since.movement) {
    json["why_not"] = told_json(*since.why_not, voice);
    return json;
  }
  const placement::Movement& movement = *since.movement;
  Json alternatives = Json::array();
  for (const auto& other : movement.alternatives) alternatives.push_back(labels_json(since, other));
  Json stakes = Json::array();
  for (std::size_t i = 0; i < movement.stakes.size(); ++i)
    stakes.push_back(stake_json(since.labels[i], movement.stakes[i]));
  json["shown"] = movement.shown;
  json["statistic"] = number(movement.statistic);
  json["freedom"] = movement.freedom;
  json["limit"] = number(movement.limit);
  json["by_noise"] = number(movement.by_noise);
  json["tied"] = since.tied;
  json["scattered"] = since.scattered;
  json["hold_moved"] = movement.hold_moved;
  json["stable"] = labels_json(since, movement.stable);
  json["alternatives"] = alternatives;
  json["stakes"] = stakes;
  return json;
}

}  // namespace stakewright::output
