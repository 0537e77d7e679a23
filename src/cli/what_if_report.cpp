// Which way to go on with the corners: leave them, use the play of the post bases, move stakes.
#include <fmt/format.h>

#include <cmath>

#include "carry_sections.hpp"
#include "stakewright/base/text.hpp"
#include "words.hpp"

namespace stakewright::cli {
namespace {

using base::text_from_small_length;
using roof::Way;

std::string piece_words(const roof::Outcome& outcome, base::Units units) {
  const roof::Part& part = *outcome.worst_part;
  return roof::text_from_part(part.name()) + ", " +
         give_or_take(directed(*part.line.difference, kLonger, units, Step::fine),
                      *part.line.uncertainty, units);
}

std::string joint_words(const roof::Joint& joint) {
  return fmt::format("{}, {}", roof::name_of(joint.what), roof::text_from_place(joint.at));
}

std::string gap_words(const roof::Outcome& outcome, base::Units units) {
  const roof::Joint& joint = *outcome.worst_joint;
  return joint_words(joint) + ", " +
         give_or_take(directed(joint.gap_m, {"open", "too long"}, units, Step::fine),
                      joint.uncertainty_m, units);
}

/// What a way comes to, after "then" or "left as found".
std::string state_words(const roof::Outcome& outcome, base::Units units) {
  if (roof::all_to_pattern(outcome))
    return "every piece comes off the pattern and every joint closes";
  std::string words = fmt::format(
      "{} of {} pieces are off or may be off by more than a joint "
      "forgives",
      outcome.own_parts, outcome.parts);
  if (outcome.worst_joint && outcome.open_joints > 0) {
    const roof::Joint& joint = *outcome.worst_joint;
    words += fmt::format(", and the worst joint may stand {} {}: {}",
                         text_from_small_length(std::abs(joint.gap_m) + joint.uncertainty_m, units),
                         joint.gap_m < 0.0 ? "too long" : "open", joint_words(joint));
  }
  return words;
}

std::string moving_words(const job::Job& job, const results::CarryResult& result) {
  const auto stakes = layout::stakes(job.plan);
  std::vector<std::string> labels;
  for (const auto& move : result.moves) labels.push_back(stakes[move.corner].label);
  return "moving " + base::joined(labels);
}

/// What the other ways would bring, where leaving the corners serves.
std::string others_words(const job::Job& job, const results::CarryResult& result,
                         base::Units units) {
  if (result.cases.size() < 2) return "";
  const bool moves = result.cases.back().way == Way::after_moves;
  std::string what = moving_words(job, result);
  what.front() = 'M';
  return fmt::format(" {} would better the worst of it by no more than {}.",
                     moves ? what : "Setting the posts in their play",
                     text_from_small_length(job.tolerance.part_m, units));
}

}  // namespace

std::string name_of_way(Way way) {
  switch (way) {
    case Way::leave:
      return "left as found";
    case Way::with_play:
      return "posts in their play";
    case Way::after_moves:
      return "after the moves";
  }
  return {};
}

std::string conclusion(const job::Job& job, const results::CarryResult& result, base::Units units) {
  if (result.cases.empty() || !result.cases.front().outcome.worst_part) return "";
  const results::RoofCase& enough = result.cases[result.enough];
  const std::string then = state_words(enough.outcome, units);
  const std::string left = state_words(result.cases.front().outcome, units);
  switch (enough.way) {
    case Way::leave:
      return fmt::format("{}: {}.",
                         result.cases.size() > 1 ? "Leave the corners as they are"
                                                 : "With the corners as they are",
                         then) +
             others_words(job, result, units);
    case Way::with_play:
      return fmt::format(
          "Setting the posts off their footings' centers is enough: then {}. Left as found, {}.",
          then, left);
    case Way::after_moves:
      return fmt::format("It pays to move before the pour: after {} {}. Left as found, {}.",
                         moving_words(job, result), then, left);
  }
  return {};
}

std::string ways_section(const results::CarryResult& result, const Shown& shown) {
  std::vector<Row> rows;
  for (const auto& one : result.cases) {
    const roof::Outcome& outcome = one.outcome;
    if (!outcome.worst_part) continue;
    std::string worst = piece_words(outcome, shown.units);
    if (outcome.worst_joint) worst += "; " + gap_words(outcome, shown.units);
    rows.push_back({name_of_way(one.way), fmt::format("{} of {}", outcome.own_parts, outcome.parts),
                    std::to_string(outcome.own_cuts),
                    fmt::format("{} of {}", outcome.open_joints, one.carry.joints.size()), worst});
  }
  if (rows.empty()) return "";
  return heading("The ways to go on, by the work they take, and what may not fit", shown.emphasis) +
         table({{"way"},
                {"pieces", Align::right},
                {"cuts", Align::right},
                {"joints", Align::right},
                {"worst piece; worst joint when all is cut to the pattern"}},
               rows, shown.emphasis);
}

std::string play_section(const job::Job& job, const results::CarryResult& result,
                         const Shown& shown) {
  if (result.cases.empty() || result.cases[result.shown].way != Way::with_play) return "";
  const auto stakes = layout::stakes(job.plan);
  std::vector<Row> rows;
  for (std::size_t i = 0; i < result.off.size(); ++i) {
    const roof::PostOff& off = result.off[i];
    rows.push_back({stakes[i].label, directed(off.outward_m, kOutward, shown.units, Step::tape),
                    directed(off.sideways_m, kSideways, shown.units, Step::tape),
                    base::text_from_length(off.distance_m, shown.units)});
  }
  return '\n' + heading("Where each post stands off its footing's center", shown.emphasis) +
         table({{"post"},
                {"outward or inward", Align::right},
                {"sideways", Align::right},
                {"off", Align::right}},
               rows, shown.emphasis);
}

}  // namespace stakewright::cli
