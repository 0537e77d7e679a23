// A crew that sets out a plan by its swings, with tapes that are never quite right.  It works by
// crossing circles, not by the propagation under test.
#pragma once

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "stakewright/layout/swings.hpp"

namespace stakewright::layout {

using Places = std::map<std::string, base::Point>;

/// Where everything belongs.
inline Places planned_places(const Plan& plan) {
  Places places{{kCenterLabel, plan.center}};
  for (const auto& stake : stakes(plan)) places[stake.label] = stake.at;
  for (const auto& pin : plan.pins) places[pin.name] = pin.at;
  return places;
}

/// The standard deviation of a taped length, from its definition in the header.
inline double taped_sd_m(const TapeSpread& spread, double length_m) {
  return std::sqrt(spread.constant_m * spread.constant_m +
                   std::pow(spread.per_length * length_m, 2.0) +
                   2.0 * std::pow(spread.centering_m, 2.0));
}

/// Where two tapes cross, on the given hand of somebody walking from the first hold to the second.
inline base::Point crossing_of(base::Point first, double first_m, base::Point second,
                               double second_m, Hand hand) {
  const double apart = base::distance_m(first, second);
  const base::Point ahead = (1.0 / apart) * (second - first);
  const base::Point right = base::clockwise(ahead);
  const double along = (apart * apart + first_m * first_m - second_m * second_m) / (2.0 * apart);
  const double aside = std::sqrt(std::max(0.0, first_m * first_m - along * along));
  return first + along * ahead + (hand == Hand::right ? aside : -aside) * right;
}

/// The places as set.  `errors`: one for the second given point, then two for each swing, each in
/// standard deviations of its tape.  Needs an order with at most two given points besides pins.
inline Places set_out(const Plan& plan, const StakingOrder& order, const TapeSpread& spread,
                      const std::vector<double>& errors) {
  const Places planned = planned_places(plan);
  Places set;
  for (const auto& label : order.given) set[label] = planned.at(label);
  if (plan.pins.size() < 2) {
    const base::Point line = planned.at(order.given[1]) - planned.at(order.given[0]);
    const double length = base::norm_m(line);
    const double pulled = length + errors[0] * taped_sd_m(spread, length);
    set[order.given[1]] = planned.at(order.given[0]) + (pulled / length) * line;
  }
  std::size_t next = 1;
  for (const Swing& swing : order.swings) {
    double pulled[2];
    for (std::size_t k = 0; k < 2; ++k)
      pulled[k] =
          swing.from[k].length_m + errors[next++] * taped_sd_m(spread, swing.from[k].length_m);
    set[swing.stake] = crossing_of(set.at(swing.from[0].label), pulled[0],
                                   set.at(swing.from[1].label), pulled[1], swing.hand);
  }
  return set;
}

/// How many errors `set_out` takes.
inline std::size_t error_count(const StakingOrder& order) { return 1 + 2 * order.swings.size(); }

/// Covariance of places, gathered from deviations.
struct Scatter {
  double xx = 0.0;
  double xy = 0.0;
  double yy = 0.0;
  void add(base::Point deviation) {
    xx += deviation.x_m * deviation.x_m;
    xy += deviation.x_m * deviation.y_m;
    yy += deviation.y_m * deviation.y_m;
  }
  /// Square root of the larger eigenvalue, over `count` deviations.
  [[nodiscard]] double worst_sd_m(double count) const {
    return std::sqrt((0.5 * (xx + yy) + std::hypot(0.5 * (xx - yy), xy)) / count);
  }
};

/// Standard deviation of one stake's place by trying each error alone, a little either way.
inline double sd_by_trial_m(const Plan& plan, const StakingOrder& order, const TapeSpread& spread,
                            const std::string& stake) {
  constexpr double kLittle = 1e-3;
  Scatter scatter;
  std::vector<double> errors(error_count(order), 0.0);
  for (double& error : errors) {
    error = kLittle;
    const base::Point more = set_out(plan, order, spread, errors).at(stake);
    error = -kLittle;
    const base::Point less = set_out(plan, order, spread, errors).at(stake);
    error = 0.0;
    scatter.add((0.5 / kLittle) * (more - less));
  }
  return scatter.worst_sd_m(1.0);
}

}  // namespace stakewright::layout
