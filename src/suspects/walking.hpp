// In which order to make the pulls, so that the two ends of the tape are carried
// little.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

#include "stakewright/base/point.hpp"

namespace stakewright::suspects {

struct Walk {
  std::vector<std::pair<std::size_t, std::size_t>> pulls;  ///< hold, far end
  double walk_m = 0.0;  ///< both ends' paths from the first pull to the last, in straight lines
};

/// Groups the pulls by holds (few holds, each pull held at one of its two ends) and orders groups
/// and far ends.
Walk walking_order(const std::vector<base::Point>& points,
                   const std::vector<std::pair<std::size_t, std::size_t>>& pulls);

}  // namespace stakewright::suspects
