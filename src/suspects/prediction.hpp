// What a reading that is not taken yet will be, under one explanation.
#pragma once

#include <cstddef>

#include "search.hpp"

namespace stakewright::suspects {

struct Prediction {
  double mean_m = 0.0;  ///< off the planned length
  double variance = 0.0;
};

/// A pull between two points with an instrument of the network, or with another one
/// (`instrument` = number of instruments) of known zero and scale.
struct Pull {
  std::size_t from = 0;
  std::size_t to = 0;
  std::size_t instrument = 0;
  double sd_m = 0.0;
};

Prediction predict(const Arrangement& arrangement, const Hypothesis& hypothesis, const Pull& pull);

}  // namespace stakewright::suspects
