#include "stakewright/algebra/gaussian.hpp"

#include <cmath>

namespace stakewright::algebra {
namespace {

using Square = std::array<std::array<double, kMostDimensions>, kMostDimensions>;
using Column = std::array<double, kMostDimensions>;

/// Lower Cholesky factor in place.  False when a pivot is not above `least` times what stood on the
/// diagonal.
bool factor(Square& s, std::size_t n, double least = 0.0) {
  for (std::size_t j = 0; j < n; ++j) {
    const double diagonal = s[j][j];
    for (std::size_t k = 0; k < j; ++k) s[j][j] -= s[j][k] * s[j][k];
    if (!(s[j][j] > least * diagonal)) return false;
    s[j][j] = std::sqrt(s[j][j]);
    for (std::size_t i = j + 1; i < n; ++i) {
      for (std::size_t k = 0; k < j; ++k) s[i][j] -= s[i][k] * s[j][k];
      s[i][j] /= s[j][j];
    }
  }
  return true;
}

void solve_lower(const Square& l, std::size_t n, Column& b) {
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < i; ++k) b[i] -= l[i][k] * b[k];
    b[i] /= l[i][i];
  }
}

void solve_upper(const Square& l, std::size_t n, Column& b) {
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t k = i + 1; k < n; ++k) b[i] -= l[k][i] * b[k];
    b[i] /= l[i][i];
  }
}

/// The Cholesky factor of S, L⁻¹u, and the log ratio.
struct Solved {
  Square factor;
  Column u{};
  double log_ratio = 0.0;
};

void solve(const Gaussian& prior, Solved& result) {
  const std::size_t n = prior.size;
  for (std::size_t i = 0; i < n; ++i) {
    double gm = 0.0;
    for (std::size_t j = 0; j < n; ++j) {
      gm += prior.gram[i][j] * prior.mean[j];
      result.factor[i][j] = prior.sd[i] * prior.gram[i][j] * prior.sd[j] + (i == j ? 1.0 : 0.0);
    }
    result.log_ratio += prior.mean[i] * (prior.projection[i] - 0.5 * gm);
    result.u[i] = prior.sd[i] * (prior.projection[i] - gm);
  }
  factor(result.factor, n);  // S = I + TGT has no eigenvalue under 1
  solve_lower(result.factor, n, result.u);
  double determinant = 1.0;  // of L: a product of a few numbers from 1 to some thousands
  for (std::size_t i = 0; i < n; ++i) {
    result.log_ratio += 0.5 * result.u[i] * result.u[i];
    determinant *= result.factor[i][i];
  }
  result.log_ratio -= std::log(determinant);
}

}  // namespace

double log_ratio(const Gaussian& prior) {
  Solved solved;
  solve(prior, solved);
  return solved.log_ratio;
}

Posterior posterior(const Gaussian& prior) {
  const std::size_t n = prior.size;
  Solved solved;
  solve(prior, solved);
  Posterior result;
  result.log_ratio = solved.log_ratio;
  solve_upper(solved.factor, n, solved.u);
  for (std::size_t i = 0; i < n; ++i) {
    result.mean[i] = prior.mean[i] + prior.sd[i] * solved.u[i];
    Column unit{};
    unit[i] = prior.sd[i];
    solve_lower(solved.factor, n, unit);
    solve_upper(solved.factor, n, unit);
    for (std::size_t j = 0; j < n; ++j) result.covariance[i][j] = unit[j] * prior.sd[j];
  }
  return result;
}

std::optional<double> explained(const Gaussian& seen, double least) {
  Square matrix;
  for (std::size_t i = 0; i < seen.size; ++i)
    for (std::size_t j = 0; j <= i; ++j) matrix[i][j] = seen.gram[i][j];
  if (!factor(matrix, seen.size, least)) return std::nullopt;
  Column half = seen.projection;
  solve_lower(matrix, seen.size, half);
  double sum = 0.0;
  for (std::size_t i = 0; i < seen.size; ++i) sum += half[i] * half[i];
  return sum;
}

double log_ratio_of_one(double gram, double projection, double mean, double sd) {
  const double left = projection - gram * mean;
  const double grown = 1.0 + sd * sd * gram;
  return mean * (projection - 0.5 * gram * mean) + 0.5 * sd * sd * left * left / grown -
         0.5 * std::log(grown);
}

double log_ratio_of_two(const std::array<double, 3>& gram, const std::array<double, 2>& projection,
                        const std::array<double, 2>& mean, double sd) {
  const double gm0 = gram[0] * mean[0] + gram[1] * mean[1];
  const double gm1 = gram[1] * mean[0] + gram[2] * mean[1];
  const double shift =
      mean[0] * (projection[0] - 0.5 * gm0) + mean[1] * (projection[1] - 0.5 * gm1);
  const double variance = sd * sd;
  const double a = 1.0 + variance * gram[0];
  const double b = variance * gram[1];
  const double c = 1.0 + variance * gram[2];
  const double determinant = a * c - b * b;
  const double u0 = projection[0] - gm0;
  const double u1 = projection[1] - gm1;
  const double square = (c * u0 * u0 - 2.0 * b * u0 * u1 + a * u1 * u1) / determinant;
  return shift + 0.5 * variance * square - 0.5 * std::log(determinant);
}

}  // namespace stakewright::algebra
