#include "stakewright/adjustment/quantiles.hpp"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/quadrature/trapezoidal.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <cstdint>

namespace stakewright::adjustment {
namespace {

/// Beyond so many standard deviations the density is below 1e-21 and adds nothing.
constexpr double kEnd = 10.0;
constexpr double kQuadrature = 1e-11;  ///< far below the digits of any table
constexpr std::size_t kMostRefinements = 16;

}  // namespace

double chi_square_limit(double alpha, int dof) {
  if (dof == 0) return 0.0;
  const boost::math::chi_squared distribution(dof);
  return boost::math::quantile(boost::math::complement(distribution, alpha));
}

double normal_limit(double alpha) {
  return boost::math::quantile(boost::math::complement(boost::math::normal(), alpha / 2.0));
}

double smallest_shift(double alpha, double power) {
  return normal_limit(alpha) + boost::math::quantile(boost::math::normal(), power);
}

double shared_alpha(double count) {
  return kReadingAlpha * std::min(1.0, kReadingsAtFullAlpha / std::max(count, 1.0));
}

double range_chance(double width, int count) {
  // m ∫ φ(x) [Φ(x + w) − Φ(x)]^(m−1) dx: the smallest lies at x, the others within w above it.
  const boost::math::normal normal;
  const auto density = [&](double x) {
    const double share = boost::math::cdf(normal, x + width) - boost::math::cdf(normal, x);
    return count * boost::math::pdf(normal, x) * std::pow(share, count - 1);
  };
  return boost::math::quadrature::trapezoidal(density, -kEnd, kEnd, kQuadrature, kMostRefinements);
}

double range_limit(double confidence, int count) {
  constexpr int kBits = 40;
  std::uintmax_t steps = 100;
  const auto bracket = boost::math::tools::toms748_solve(
      [&](double width) { return range_chance(width, count) - confidence; }, 0.0, 2.0 * kEnd,
      boost::math::tools::eps_tolerance<double>(kBits), steps);
  return 0.5 * (bracket.first + bracket.second);
}

}  // namespace stakewright::adjustment
