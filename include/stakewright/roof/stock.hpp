// What the yard sells: `[stock]` of the job file.
//
// Units: meters.  docs/file-formats.md.
#pragma once

#include <vector>

namespace stakewright::roof {

/// What the yard sells.
struct Stock {
  std::vector<double> lengths_m = {2.4384, 3.048, 3.6576, 4.2672, 4.8768, 6.096};  ///< 8 to 20 ft
  double kerf_m = 0.003175;  ///< lost at each cut: 1/8 in
};

}  // namespace stakewright::roof
