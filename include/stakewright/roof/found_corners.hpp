// The corners that a roof is to stand over, as found.
//
// Units: meters.
#pragma once

#include <optional>
#include <vector>

#include "stakewright/base/matrix.hpp"
#include "stakewright/base/point.hpp"

namespace stakewright::roof {

/// Tops of the footings, one a corner, above any one level.
struct Footings {
  std::vector<double> height_m;
  base::Matrix covariance;  ///< n x n
};

/// Corners as found, laid on the plan: in the plan's own frame.
struct FoundCorners {
  std::vector<base::Point> corners;  ///< plan-line corners, plan frame
  /// Of the corners, 2n x 2n; or (2n + 2) x (2n + 2) with the pin last.  Without
  /// the pin's rows the pin counts as exact, and a remark says so.
  base::Matrix covariance;
  std::optional<base::Point> pin;    ///< the center pin as found, plan frame, when measured
  std::optional<Footings> footings;  ///< when levels were read at every corner
};

}  // namespace stakewright::roof
