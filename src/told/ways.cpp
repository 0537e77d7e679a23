// Which way to go on with the corners: leave them, use the play of the post bases, move stakes.
#include <cmath>

#include "carry_sections.hpp"

namespace stakewright::told {
namespace {

using base::Count;
using base::Directed;
using base::Fact;
using base::Length;
using base::List;
using base::Name;
using roof::Way;

Fact worst_part(const roof::Part& part) {
  return {"carry.worst_part",
          {{"part", name(part.kind)},
           {"at", place_of(part.at)},
           {"off", Directed{base::Way::longer, fine(*part.line.difference)}},
           {"give_or_take", fine(*part.line.uncertainty)}}};
}

Fact worst_joint(const roof::Joint& joint) {
  return {"carry.worst_joint",
          {{"joint", name(joint.what)},
           {"at", place_of(joint.at)},
           {"off", Directed{base::Way::open, fine(joint.gap_m)}},
           {"give_or_take", fine(joint.uncertainty_m)}}};
}

/// What a way comes to.
Fact state(const roof::Outcome& outcome) {
  if (roof::all_to_pattern(outcome)) return {"carry.all_fits"};
  Fact off{"carry.pieces_off",
           {{"off", Count{static_cast<std::size_t>(outcome.own_parts)}},
            {"all", Count{static_cast<std::size_t>(outcome.parts)}}}};
  if (!outcome.worst_joint || outcome.open_joints == 0) return off;
  const roof::Joint& joint = *outcome.worst_joint;
  const double most_m = std::abs(joint.gap_m) + joint.uncertainty_m;
  return {"carry.joints_off_too",
          {{"pieces", std::move(off)},
           {"off", Directed{base::Way::open, fine(joint.gap_m < 0.0 ? -most_m : most_m)}},
           {"joint", name(joint.what)},
           {"at", place_of(joint.at)}}};
}

List moved_stakes(const job::Job& job, const results::CarryResult& result) {
  const auto stakes = layout::stakes(job.plan);
  List labels;
  for (const placement::Move& move : result.moves)
    labels.items.emplace_back(Name{stakes[move.corner].label});
  return labels;
}

/// The corners are left: what the other ways would bring.
Paragraph leaving(const job::Job& job, const results::CarryResult& result, Fact then) {
  if (result.cases.size() < 2) return {{"carry.as_they_are", {{"then", std::move(then)}}}};
  const Length part = fine(job.tolerance.part_m);
  Paragraph said{{"carry.leave", {{"then", std::move(then)}}}};
  if (result.cases.back().way == Way::after_moves)
    said.push_back(
        {"carry.moving_betters", {{"stakes", moved_stakes(job, result)}, {"size", part}}});
  else
    said.push_back({"carry.play_betters", {{"size", part}}});
  return said;
}

Section play_section(const job::Job& job, const results::CarryResult& result) {
  const auto stakes = layout::stakes(job.plan);
  Table table{{Fact{"roof_tables.post"}, Fact{"columns.outward_or_inward"},
               Fact{"columns.sideways"}, Fact{"columns.off"}},
              {}};
  for (std::size_t i = 0; i < result.off.size(); ++i) {
    const roof::PostOff& off = result.off[i];
    table.rows.push_back(
        {Name{stakes[i].label}, Directed{base::Way::outward, Length{off.outward_m}},
         Directed{base::Way::sideways, Length{off.sideways_m}}, Length{off.distance_m}});
  }
  return {Fact{"carry.play"}, {std::move(table)}};
}

}  // namespace

Paragraph conclusion(const job::Job& job, const results::CarryResult& result) {
  if (result.cases.empty() || !result.cases.front().outcome.worst_part) return {};
  const results::RoofCase& enough = result.cases[result.enough];
  Fact then = state(enough.outcome);
  Paragraph said;
  switch (enough.way) {
    case Way::leave:
      return leaving(job, result, std::move(then));
    case Way::with_play:
      said.push_back({"carry.play_is_enough", {{"then", std::move(then)}}});
      break;
    case Way::after_moves:
      said.push_back({"carry.moving_pays",
                      {{"stakes", moved_stakes(job, result)}, {"then", std::move(then)}}});
      break;
  }
  said.push_back({"carry.if_left", {{"then", state(result.cases.front().outcome)}}});
  return said;
}

std::vector<Section> ways_sections(const job::Job& job, const results::CarryResult& result) {
  std::vector<Section> sections;
  Table table{{Fact{"roof_tables.way"}, Fact{"roof_tables.pieces"}, Fact{"roof_tables.cuts"},
               Fact{"roof_tables.joints"}, Fact{"roof_tables.worst"}},
              {}};
  for (const results::RoofCase& one : result.cases) {
    const roof::Outcome& outcome = one.outcome;
    if (!outcome.worst_part) continue;
    Fact worst = worst_part(*outcome.worst_part);
    if (outcome.worst_joint)
      worst = {"lists.clauses",
               {{"before", std::move(worst)}, {"next", worst_joint(*outcome.worst_joint)}}};
    table.rows.push_back(
        {name(one.way), so_many_of(outcome.own_parts, outcome.parts),
         Count{static_cast<std::size_t>(outcome.own_cuts)},
         so_many_of(static_cast<std::size_t>(outcome.open_joints), one.carry.joints.size()),
         std::move(worst)});
  }
  if (!table.rows.empty()) sections.push_back({Fact{"carry.ways"}, {std::move(table)}});
  if (result.cases[result.shown].way == Way::with_play)
    sections.push_back(play_section(job, result));
  return sections;
}

}  // namespace stakewright::told
