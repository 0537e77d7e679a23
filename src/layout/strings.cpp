#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "stakewright/base/text.hpp"
#include "stakewright/layout/surroundings.hpp"
#include "stakewright/layout/swings.hpp"

namespace stakewright::layout {
namespace {

/// A string longer than this, nail to nail, sags and drifts in the wind.  Common practice, no
/// source.
constexpr double kLongestString_m = 30.0;

/// Strings of 12 sides cross at exactly 30 degrees.
constexpr double kAngleRounding_rad = 1e-9;

/// The line furthest out; the plan line when none lies outside it.
Line outermost_line(const Plan& plan) {
  Line outermost{kPlanLineName, 0.0};
  for (const Line& line : plan.lines)
    if (line.offset_m > outermost.offset_m) outermost = line;
  return outermost;
}

/// Least setback at which a nail on a side line lies `clear_m` outside the polygon.  The nail is
/// clear as soon as it is so far outside any one of the sides ahead, the k-th of which is turned by
/// k central angles.  docs/methods/staking.md.
double setback_for(const Polygon& polygon, double clear_m) {
  const double step = central_angle_rad(polygon);
  const double flat_radius = flat_radius_m(polygon);
  double least = std::numeric_limits<double>::infinity();
  for (int k = 1; 2 * k < polygon.sides; ++k) {
    const double from_middle =
        (clear_m + flat_radius * (1.0 - std::cos(k * step))) / std::sin(k * step);
    least = std::min(least, from_middle - 0.5 * side_m(polygon));
  }
  return least;
}

double setback_of(const Plan& plan) {
  if (plan.batter_setback_m > 0.0) return plan.batter_setback_m;
  const double beyond_line = outermost_line(plan).offset_m + kBoardBeyondLine_m;
  return setback_for(plan.polygon, std::max(beyond_line, kBoardBeyondPlanLine_m));
}

}  // namespace

std::vector<String> strings(const Plan& plan) {
  const auto corners = stakes(plan);
  const double setback = setback_of(plan);
  std::vector<String> result;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Stake& from = corners[i];
    const Stake& to = corners[(i + 1) % corners.size()];
    const double side = base::distance_m(from.at, to.at);
    const base::Point out = (setback / side) * (to.at - from.at);
    result.push_back(
        {from.label + "-" + to.label, from.at - out, to.at + out, setback, side + 2.0 * setback});
  }
  return result;
}

std::vector<std::string> string_remarks(const Plan& plan) {
  std::vector<std::string> remarks;
  if (central_angle_rad(plan.polygon) < kFlattestCrossing_rad - kAngleRounding_rad)
    remarks.push_back(fmt::format(
        "With {} sides neighboring strings cross flatter than 30 degrees: take the line "
        "of a side from its string, and the corner along it from a tape.",
        plan.polygon.sides));
  const Line outermost = outermost_line(plan);
  const double setback = setback_of(plan);
  if (setback < setback_for(plan.polygon, outermost.offset_m))
    remarks.push_back(
        fmt::format("The batter boards stand inside the line {}: set them back further.",
                    base::in_quotes(outermost.name)));
  if (side_m(plan.polygon) + 2.0 * setback > kLongestString_m)
    remarks.push_back(
        "The strings run more than 30 m (98 ft) from nail to nail: prop them on the way, or use "
        "offset stakes.");
  return remarks;
}

}  // namespace stakewright::layout
