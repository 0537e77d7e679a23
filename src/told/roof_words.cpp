#include "stakewright/told/roof_words.hpp"

#include <iterator>

#include "carry_sections.hpp"

namespace stakewright::told {
namespace {

using base::Fact;
using base::Id;

// In the order of the enums.
constexpr Id kParts[] = {"parts.hip",    "parts.common", "parts.jack", "parts.blocking",
                         "parts.fascia", "parts.beam",   "parts.post", "parts.hub"};
constexpr Id kCuts[] = {"cuts.plumb",      "cuts.seat",  "cuts.cheek", "cuts.backing", "cuts.tail",
                        "cuts.tail_bevel", "cuts.miter", "cuts.bevel", "cuts.rip"};
constexpr Id kJoints[] = {"joints.hip_at_peak",   "joints.common_at_peak", "joints.jack_at_hip",
                          "joints.hip_plumb",     "joints.hip_seat",       "joints.common_plumb",
                          "joints.common_seat",   "joints.hips_at_peak",   "joints.fascia_along",
                          "joints.fascia_across", "joints.fascia_over",    "joints.fascia_step",
                          "joints.beam_along",    "joints.beam_across",    "joints.sheathing_edge"};
constexpr Id kWays[] = {"carry.left_as_found", "carry.posts_in_their_play",
                        "carry.after_the_moves"};
static_assert(static_cast<std::size_t>(roof::PartKind::hub) + 1 == std::size(kParts));
static_assert(static_cast<std::size_t>(roof::CutName::rip) + 1 == std::size(kCuts));
static_assert(static_cast<std::size_t>(roof::JointName::sheathing_edge) + 1 == std::size(kJoints));
static_assert(static_cast<std::size_t>(roof::Way::after_moves) + 1 == std::size(kWays));

}  // namespace

Fact name(roof::PartKind kind) { return {kParts[static_cast<std::size_t>(kind)]}; }
Fact name(roof::CutName cut) { return {kCuts[static_cast<std::size_t>(cut)]}; }
Fact name(roof::JointName joint) { return {kJoints[static_cast<std::size_t>(joint)]}; }
Fact name(roof::Way way) { return {kWays[static_cast<std::size_t>(way)]}; }

Fact name(roof::PartKind part, roof::CutName cut) {
  return {"cuts.of_part", {{"part", name(part)}, {"cut", name(cut)}}};
}

SquareHold square_hold(double figure, base::Units units) {
  constexpr double kInch_m = 0.0254;
  const bool inches = units == base::Units::feet_inches;
  const double arm_m = inches ? 12.0 * kInch_m : 0.25;
  const auto arm = [inches](double length_m) -> base::Value {
    if (!inches) return Fact{"figures.millimeters", {{"figure", base::Number{1000.0 * length_m}}}};
    // As a square is read: no foot.
    const bool whole_foot = length_m > (12.0 - 1.0 / 32.0) * kInch_m;
    return whole_foot ? base::Value(Fact{"figures.twelve_inches"}) : base::Length{length_m};
  };
  if (figure > 1.0) return {arm(arm_m), arm(arm_m / figure)};
  return {arm(arm_m * figure), arm(arm_m)};
}

}  // namespace stakewright::told
