#include "significance.hpp"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/non_central_chi_squared.hpp>
#include <boost/math/distributions/non_central_f.hpp>

namespace stakewright::placement {
namespace {

using boost::math::complement;

// Halvings of the range that holds the non-centrality: to a millionth of it.
constexpr int kHalvings = 40;

}  // namespace

double Significance::limit(int freedom, double alpha) const {
  if (redundancy_ == 0)
    return boost::math::quantile(complement(boost::math::chi_squared(freedom), alpha));
  const boost::math::fisher_f ratio(freedom, redundancy_);
  return freedom * boost::math::quantile(complement(ratio, alpha));
}

double Significance::by_noise(double statistic, int freedom) const {
  if (statistic <= 0.0) return 1.0;
  return beyond(statistic, freedom, 0.0);
}

double Significance::beyond(double limit, int freedom, double non_centrality) const {
  if (redundancy_ == 0 && non_centrality == 0.0)
    return boost::math::cdf(complement(boost::math::chi_squared(freedom), limit));
  if (redundancy_ == 0)
    return boost::math::cdf(
        complement(boost::math::non_central_chi_squared(freedom, non_centrality), limit));
  if (non_centrality == 0.0)
    return boost::math::cdf(
        complement(boost::math::fisher_f(freedom, redundancy_), limit / freedom));
  const boost::math::non_central_f ratio(freedom, redundancy_, non_centrality);
  return boost::math::cdf(complement(ratio, limit / freedom));
}

double Significance::non_centrality(int freedom, double alpha, double power) const {
  const double at = limit(freedom, alpha);
  double low = 0.0;
  double high = 1.0;
  while (beyond(at, freedom, high) < power) high *= 2.0;
  for (int step = 0; step < kHalvings; ++step) {
    const double middle = 0.5 * (low + high);
    (beyond(at, freedom, middle) < power ? low : high) = middle;
  }
  return high;
}

}  // namespace stakewright::placement
