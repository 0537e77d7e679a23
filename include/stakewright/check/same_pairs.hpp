// Two instruments that read the same pairs of points.
#pragma once

#include <cstddef>

namespace stakewright::check {

/// One instrument against another; both by their index in the network.
struct SamePairs {
  enum class Like { either, zero, scale };

  std::size_t instrument = 0;
  std::size_t against = 0;
  std::size_t pairs = 0;
  double more_m = 0.0;  ///< `instrument` reads so much more, over all pairs ...
  double sd_m = 0.0;
  double scale = 0.0;  ///< ... or so much more a meter
  double scale_sd = 0.0;
  bool differ = false;       ///< by more than their readings' noise, at the job's confidence
  Like like = Like::either;  ///< which of the two explains what the other cannot
};

}  // namespace stakewright::check
