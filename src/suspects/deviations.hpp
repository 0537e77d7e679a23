// How well corners are known against the plan laid over the others.
#pragma once

#include <vector>

#include "stakewright/base/matrix.hpp"
#include "stakewright/base/point.hpp"

namespace stakewright::suspects {

/// Standard deviation of each corner's deviation in its worst direction, the plan laid by least
/// squares over the other corners.  `covariance` of the places, order x0 y0 x1 y1 …, corners first;
/// any datum.  Three corners or more, not all at one place.
std::vector<double> worst_sds(const std::vector<base::Point>& corners,
                              const base::Matrix& covariance);

}  // namespace stakewright::suspects
