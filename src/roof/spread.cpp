#include "spread.hpp"

#include <boost/math/distributions/normal.hpp>
#include <cassert>

namespace stakewright::roof {
namespace {

/// a times b, skipping the many zeros of a.
base::Matrix product(const base::Matrix& a, const base::Matrix& b) {
  base::Matrix result(a.rows, b.cols);
  for (std::size_t i = 0; i < a.rows; ++i)
    for (std::size_t k = 0; k < a.cols; ++k) {
      const double factor = a(i, k);
      if (factor == 0.0) continue;
      for (std::size_t j = 0; j < b.cols; ++j) result(i, j) += factor * b(k, j);
    }
  return result;
}

base::Matrix transposed(const base::Matrix& a) {
  base::Matrix result(a.cols, a.rows);
  for (std::size_t i = 0; i < a.rows; ++i)
    for (std::size_t j = 0; j < a.cols; ++j) result(j, i) = a(i, j);
  return result;
}

base::Matrix widened(const base::Matrix& a, std::size_t size) {
  base::Matrix result(size, size);
  for (std::size_t i = 0; i < a.rows; ++i)
    for (std::size_t j = 0; j < a.cols; ++j) result(i, j) = a(i, j);
  return result;
}

}  // namespace

base::Matrix carried(const Plate& plate, const base::Matrix& covariance) {
  assert(covariance.rows == covariance.cols);
  assert(covariance.rows == plate.by.cols || covariance.rows + 2 == plate.by.cols);
  const base::Matrix given = widened(covariance, plate.by.cols);
  // (by given) by' as by ((by given)'), since `given` is symmetric.
  return product(plate.by, transposed(product(plate.by, given)));
}

double half_width_factor(double confidence) {
  return boost::math::quantile(boost::math::normal(), 0.5 * (1.0 + confidence));
}

double variance(const Linear& figure, const WindowRows& rows, const base::Matrix& covariance) {
  double sum = 0.0;
  for (std::size_t i = 0; i < kWindowCoordinates; ++i)
    for (std::size_t j = 0; j < kWindowCoordinates; ++j)
      sum += figure.by[i] * figure.by[j] * covariance(rows[i], rows[j]);
  return sum;
}

double variance(const std::vector<double>& gradient, const base::Matrix& covariance) {
  double sum = 0.0;
  for (std::size_t i = 0; i < gradient.size(); ++i) {
    if (gradient[i] == 0.0) continue;
    for (std::size_t j = 0; j < gradient.size(); ++j)
      sum += gradient[i] * gradient[j] * covariance(i, j);
  }
  return sum;
}

}  // namespace stakewright::roof
