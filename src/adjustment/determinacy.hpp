// What the readings determine, found from the planned places before anything is adjusted.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <vector>

#include "model.hpp"
#include "stakewright/adjustment/adjust.hpp"

namespace stakewright::adjustment {

struct Determinacy {
  std::vector<bool> asked;            ///< per network point: its place can be found from `readings`
  std::vector<std::size_t> readings;  ///< that bear on them
  Eigen::Index defect = 0;            ///< motions of the whole that stay free: 0 to 3
  std::vector<Loose> loose;           ///< the corners that are not asked
  bool center_set_aside = false;  ///< corners are asked, the center pin is reached but not fixed
};

/// Of `readings`, indices of observations: by the rank of the design matrix at the plan, its rows
/// of unit length (singular values), never by counting.
Determinacy determinacy(const Network& network, const std::vector<std::size_t>& readings);

}  // namespace stakewright::adjustment
