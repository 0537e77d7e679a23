// Which tapes to pull: a plan beforehand, and the next one when it is unclear.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "stakewright/adjustment/network.hpp"
#include "stakewright/suspects/suspects.hpp"

namespace stakewright::suspects {

/// A pull that is worth making, and why, in words.
struct NextTape {
  std::size_t from = 0;
  std::size_t to = 0;
  bool repeat = false;   ///< it has been pulled before
  double settles = 0.0;  ///< expected drop of uncertainty about the cause, in bits
  std::string why;
};

/// The pulls that are expected to settle most, best first, at most `most`.
/// Empty when one explanation already has the setting's confidence.
std::vector<NextTape> next_tapes(const adjustment::Network& network, const Suspects& suspects,
                                 const Setting& setting, std::size_t most = 3);

}  // namespace stakewright::suspects
