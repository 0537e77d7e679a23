// On what a laying rests, and what that makes of the covariance.
#pragma once

#include <cstddef>
#include <vector>

#include "stakewright/base/matrix.hpp"
#include "stakewright/placement/placement.hpp"

namespace stakewright::placement {

/// The laying meets the mean place of the corners in `shift` and is turned about it by least
/// squares over those in `turn`.  Both the same: least squares over them.
struct Datum {
  std::vector<std::size_t> shift;
  std::vector<std::size_t> turn;
};

Rigid fit(const Survey& survey, const Datum& datum);

/// Covariance of found - wanted when `rigid` moves along with the found places of the datum:
/// S C Sᵀ, S = I - G D, G the three rigid motions and D the datum's answer to the found places.
/// Rows and columns of corners that are not measured are zero.
base::Matrix deviation_covariance(const Survey& survey, const Rigid& rigid, const Datum& datum);

}  // namespace stakewright::placement
