// A number told by its significant digits.
#pragma once

#include <cmath>

#include "stakewright/base/fact.hpp"

namespace stakewright::base {

/// The value rounded to `digits` significant digits, 1 to 6: 3.28 of 3.2808 and three.
inline Number significant(double value, int digits) {
  if (value == 0.0 || !std::isfinite(value)) return {value, -1};
  const double scale =
      std::pow(10.0, digits - 1 - static_cast<int>(std::floor(std::log10(std::abs(value)))));
  return {std::round(value * scale) / scale, -1};
}

}  // namespace stakewright::base
