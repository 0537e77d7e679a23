#include "stakewright/layout/radial.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/base/turning.hpp"

namespace stakewright::layout {
namespace {

/// A mark nearer to the instrument than this gives no direction.
constexpr double kNearestMark_m = 0.001;

/// An angle this near to a whole turn is nought: rounding of two bearings.
constexpr double kWholeTurn_rad = 1e-9;

double turned(base::Point at, base::Point mark, base::Point stake) {
  const double angle_rad = base::turned_rad(at, mark, stake);
  return angle_rad > 2.0 * std::numbers::pi - kWholeTurn_rad ? 0.0 : angle_rad;
}

const Stake& held_stake(const std::string& label, const std::vector<Stake>& all) {
  const auto held = std::find_if(all.begin(), all.end(),
                                 [&](const Stake& stake) { return stake.label == label; });
  if (held == all.end())
    throw base::InputError(fmt::format("hold: read {}; accepted: a stake, {} to {}",
                                       base::in_quotes(label), all.front().label,
                                       all.back().label));
  return *held;
}

/// A name and its place; of pins the farthest, if it is far enough to sight.
Stake mark_of(const Plan& plan, const std::vector<Stake>& all) {
  if (!plan.hold.empty()) return held_stake(plan.hold.front(), all);
  const auto from_center = [&](const Pin& pin) { return base::distance_m(plan.center, pin.at); };
  const auto farthest =
      std::max_element(plan.pins.begin(), plan.pins.end(),
                       [&](const Pin& a, const Pin& b) { return from_center(a) < from_center(b); });
  if (farthest == plan.pins.end() || from_center(*farthest) < kNearestMark_m) return all.front();
  return {farthest->name, farthest->at};
}

}  // namespace

Radial radial(const Plan& plan) {
  const std::vector<Stake> all = stakes(plan);
  const Stake mark = mark_of(plan, all);
  Radial result{kCenterLabel, mark.label, base::distance_m(plan.center, mark.at), {}};
  for (const Stake& stake : all) {
    result.stakes.push_back({stake.label, turned(plan.center, mark.at, stake.at),
                             base::distance_m(plan.center, stake.at)});
  }
  return result;
}

}  // namespace stakewright::layout
