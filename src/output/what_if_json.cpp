// Ways to go on, sensitivity and the corners' need as JSON.  Keys: docs/results.md.
#include "carry_json.hpp"
#include "stakewright/layout/plan.hpp"

namespace stakewright::output {
namespace {

Json worst_piece_json(const roof::Part& part) {
  return {{"part", roof::name_of(part.kind)},
          {"at", roof::text_from_place(part.at)},
          {"difference", number(part.line.difference.value_or(0.0))},
          {"uncertainty", number(part.line.uncertainty.value_or(0.0))}};
}

Json worst_joint_json(const roof::Joint& joint) {
  return {{"at", roof::text_from_place(joint.at)},
          {"what", roof::name_of(joint.what)},
          {"gap", number(joint.gap_m)},
          {"uncertainty", number(joint.uncertainty_m)}};
}

Json moves_json(const job::Job& job, const std::vector<placement::Move>& moves) {
  const auto stakes = layout::stakes(job.plan);
  Json list = Json::array();
  for (const auto& move : moves)
    list.push_back({{"stake", stakes[move.corner].label},
                    {"outward", number(move.outward_m)},
                    {"sideways", number(move.sideways_m)}});
  return list;
}

Json posts_json(const job::Job& job, const std::vector<roof::PostOff>& off) {
  const auto stakes = layout::stakes(job.plan);
  Json list = Json::array();
  for (std::size_t i = 0; i < off.size(); ++i)
    list.push_back({{"post", stakes[i].label},
                    {"outward", number(off[i].outward_m)},
                    {"sideways", number(off[i].sideways_m)},
                    {"off", number(off[i].distance_m)}});
  return list;
}

}  // namespace

const char* word_of(roof::Way way) {
  switch (way) {
    case roof::Way::leave:
      return "leave";
    case roof::Way::with_play:
      return "with_play";
    case roof::Way::after_moves:
      return "after_moves";
  }
  return "";
}

Json ways_json(const job::Job& job, const results::CarryResult& result) {
  Json list = Json::array();
  for (std::size_t i = 0; i < result.cases.size(); ++i) {
    const results::RoofCase& one = result.cases[i];
    const roof::Outcome& outcome = one.outcome;
    Json entry = {{"way", word_of(one.way)},
                  {"enough", i == result.enough && outcome.worst_part.has_value()},
                  {"pieces", outcome.parts},
                  {"own_pieces", outcome.own_parts},
                  {"own_cuts", outcome.own_cuts},
                  {"joints", one.carry.joints.size()},
                  {"open_joints", outcome.open_joints},
                  {"worst_piece", nullptr},
                  {"worst_joint", nullptr}};
    if (outcome.worst_part) entry["worst_piece"] = worst_piece_json(*outcome.worst_part);
    if (outcome.worst_joint) entry["worst_joint"] = worst_joint_json(*outcome.worst_joint);
    if (one.way == roof::Way::after_moves) entry["moves"] = moves_json(job, result.moves);
    if (one.way == roof::Way::with_play) entry["posts"] = posts_json(job, result.off);
    list.push_back(entry);
  }
  return list;
}

Json need_json(const roof::CornerNeed& need) {
  Json json = {{"together", number(need.together_m)},
               {"alone", number(need.alone_m)},
               {"part", roof::name_of(need.part)},
               {"at", roof::text_from_place(need.at)}};
  if (need.cut) json["name"] = roof::name_of(*need.cut);
  return json;
}

Json shift_json(const results::Shift& shift) {
  Json list = Json::array();
  for (const auto& answer : shift.answers) {
    Json entry = {{"part", roof::name_of(answer.part)}, {"at", roof::text_from_place(answer.at)}};
    if (answer.cut) entry["name"] = roof::name_of(*answer.cut);
    entry["outward"] = number(answer.outward * shift.shift_m);
    entry["sideways"] = number(answer.sideways * shift.shift_m);
    if (answer.cut) entry["lever"] = number(answer.lever_m);
    list.push_back(entry);
  }
  return {{"corner", shift.corner}, {"shift", number(shift.shift_m)}, {"pieces", list}};
}

}  // namespace stakewright::output
