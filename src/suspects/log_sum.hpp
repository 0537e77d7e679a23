// Sums of weights too large or too small for a double, by their logarithms.
#pragma once

#include <cmath>
#include <limits>

namespace stakewright::suspects {

/// Running log of a sum of exponentials.
class LogSum {
 public:
  void add(double value) {
    if (std::isinf(value) && value < 0.0) return;
    if (value > most_) {
      sum_ = sum_ * std::exp(most_ - value) + 1.0;
      most_ = value;
    } else {
      sum_ += std::exp(value - most_);
    }
  }
  [[nodiscard]] double value() const { return most_ + std::log(sum_); }

 private:
  double most_ = -std::numeric_limits<double>::infinity();
  double sum_ = 0.0;
};

}  // namespace stakewright::suspects
