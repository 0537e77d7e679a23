// A number with as many decimals as so many digits need.
#pragma once

#include <algorithm>
#include <cmath>

#include "stakewright/base/fact.hpp"

namespace stakewright::base {

/// The value to `digits` significant digits, 1 or more: 3.28 of 3.2808 and three.
inline Number significant(double value, int digits) {
  const double size = std::abs(value);
  const int before = size > 0.0 ? static_cast<int>(std::floor(std::log10(size))) + 1 : 1;
  return {value, std::max(0, digits - before)};
}

}  // namespace stakewright::base
