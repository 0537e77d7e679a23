// The smallest circle around a few points.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "stakewright/base/point.hpp"

namespace stakewright::placement {

struct Circle {
  base::Point center;
  double radius_m = 0.0;
  std::array<std::size_t, 3> rim{};  ///< points that hold it open
  std::size_t rim_count = 0;
};

/// Smallest circle around `points`, at least one.  They are tried in the order given by
/// `order` (a permutation of their indices); the rim is moved to its front, so that the next
/// call for nearly the same points is one pass.
Circle smallest_circle(std::span<const base::Point> points, std::vector<std::size_t>& order);

}  // namespace stakewright::placement
