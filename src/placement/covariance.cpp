#include "covariance.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace stakewright::placement {
namespace {

// left * right, or left * rightᵀ.
base::Matrix product(const base::Matrix& left, const base::Matrix& right, bool transposed) {
  const std::size_t cols = transposed ? right.rows : right.cols;
  base::Matrix result(left.rows, cols);
  for (std::size_t row = 0; row < left.rows; ++row) {
    for (std::size_t k = 0; k < left.cols; ++k) {
      const double factor = left(row, k);
      if (factor == 0.0) continue;
      for (std::size_t col = 0; col < cols; ++col) {
        result(row, col) += factor * (transposed ? right(col, k) : right(k, col));
      }
    }
  }
  return result;
}

}  // namespace

Spread spread_of(const base::Matrix& covariance, std::size_t corner) {
  const std::size_t x = 2 * corner;
  return {covariance(x, x), 0.5 * (covariance(x, x + 1) + covariance(x + 1, x)),
          covariance(x + 1, x + 1)};
}

base::Matrix propagated(const base::Matrix& s, const base::Matrix& covariance) {
  return product(product(s, covariance, false), s, true);
}

// Eigenvalues of a symmetric 2 x 2 matrix.
Axes axes_of(const Spread& spread) {
  const double middle = 0.5 * (spread.xx + spread.yy);
  const double half_difference = 0.5 * (spread.xx - spread.yy);
  const double reach = std::hypot(half_difference, spread.xy);
  return {std::sqrt(std::max(0.0, middle + reach)), std::sqrt(std::max(0.0, middle - reach)),
          0.5 * std::atan2(spread.xy, half_difference)};
}

// Half axes: standard deviations times the root of chi-square with two degrees of freedom,
// whose quantile at p is -2 ln(1 - p).
Ellipse ellipse_of(const Spread& spread, double confidence) {
  const Axes axes = axes_of(spread);
  const double factor = std::sqrt(-2.0 * std::log1p(-confidence));
  double bearing = std::fmod(std::numbers::pi / 2.0 - axes.angle_rad, std::numbers::pi);
  if (bearing < 0.0) bearing += std::numbers::pi;
  return {factor * axes.major_sd, factor * axes.minor_sd, bearing};
}

}  // namespace stakewright::placement
