// The laying that rests on its datum, and how a place is off under it.
#pragma once

#include "stakewright/base/matrix.hpp"
#include "stakewright/placement/placement.hpp"

namespace stakewright::placement {

/// The laying that follows from the found places of its datum.
Rigid fit(const Survey& survey, const Datum& datum);

/// A step seen along a corner radius, outward, and square to it, clockwise; both 0 for the center.
struct Off {
  double outward_m = 0.0;
  double sideways_m = 0.0;
};

Off off_along(base::Point radius, base::Point step);

/// The ellipse that holds a point's true place with chance `confidence`.
Ellipse ellipse_of(const base::Matrix& covariance, std::size_t point, double confidence);

}  // namespace stakewright::placement
