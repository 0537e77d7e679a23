#include "spread.hpp"

#include <boost/math/distributions/normal.hpp>
#include <cassert>

#include "stakewright/algebra/algebra.hpp"

namespace stakewright::roof {
namespace {

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
  return algebra::propagated(plate.by, widened(covariance, plate.by.cols));
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

}  // namespace stakewright::roof
