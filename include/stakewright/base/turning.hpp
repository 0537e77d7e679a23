// Angles turned at a point, as a crew reads them off a circle: clockwise seen from above.
//
// Units: meters and radians.
#pragma once

#include <cmath>
#include <numbers>

#include "stakewright/base/point.hpp"

namespace stakewright::base {

/// The same direction of turn, in (-pi, pi].
inline double wrapped_rad(double angle_rad) {
  constexpr double turn = 2.0 * std::numbers::pi;
  const double wrapped = std::remainder(angle_rad, turn);
  return wrapped <= -std::numbers::pi ? wrapped + turn : wrapped;
}

/// The same angle, in [0, 2 pi).
inline double within_turn_rad(double angle_rad) {
  constexpr double turn = 2.0 * std::numbers::pi;
  const double rest = std::fmod(angle_rad, turn);
  const double positive = rest < 0.0 ? rest + turn : rest;
  return positive < turn ? positive : 0.0;
}

/// Clockwise at `at` from the sight to `from` round to the sight to `to`, in [0, 2 pi).
inline double turned_rad(Point at, Point from, Point to) {
  return within_turn_rad(bearing_rad(to - at) - bearing_rad(from - at));
}

/// How a bearing grows with the place of the point sighted, in radians a meter each way.  By the
/// place of the instrument: the opposite.  `sight` must not be zero.
constexpr Point bearing_by_place(Point sight) {
  return (1.0 / dot(sight, sight)) * clockwise(sight);
}

}  // namespace stakewright::base
