#include "stakewright/adjustment/quantiles.hpp"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/normal.hpp>

namespace stakewright::adjustment {

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

}  // namespace stakewright::adjustment
