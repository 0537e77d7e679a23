// Covariances passed on, and seen along their own axes.
#pragma once

#include "stakewright/base/matrix.hpp"
#include "stakewright/placement/placement.hpp"

namespace stakewright::placement {

struct Spread {
  double xx = 0.0;
  double xy = 0.0;
  double yy = 0.0;
};

struct Axes {
  double major_sd = 0.0;
  double minor_sd = 0.0;
  double angle_rad = 0.0;  ///< of the major axis, from x toward y
};

/// The block of one corner in a covariance of order x0 y0 x1 y1 …
Spread spread_of(const base::Matrix& covariance, std::size_t corner);

/// S C Sᵀ: the covariance of S e where e has covariance C.
base::Matrix propagated(const base::Matrix& s, const base::Matrix& covariance);

/// Standard deviations along and across.  Rounding below zero counts as zero.
Axes axes_of(const Spread& spread);

/// The ellipse that holds the true place with chance `confidence`.
Ellipse ellipse_of(const Spread& spread, double confidence);

}  // namespace stakewright::placement
