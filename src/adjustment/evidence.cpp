#include "evidence.hpp"

#include <cmath>

#include "stakewright/algebra/gaussian.hpp"

namespace stakewright::adjustment {
namespace {

/// Of the priors' standard deviations, over the usual slip.
constexpr std::array<double, 4> kScales = {1.0, 4.0, 16.0, 64.0};

/// The slips of a set in standard deviations, seen through their residuals: columns of the unit
/// matrix, so that M is their Gram matrix.
algebra::Gaussian seen(const ResidualEvidence& evidence, const SlipCandidate& set) {
  algebra::Gaussian result;
  result.size = set.size;
  for (std::size_t i = 0; i < set.size; ++i) {
    const auto row = static_cast<Eigen::Index>(set.members[i]);
    result.projection[i] = evidence.residuals(row);
    for (std::size_t j = 0; j < set.size; ++j)
      result.gram[i][j] = evidence.cofactor(row, static_cast<Eigen::Index>(set.members[j]));
  }
  return result;
}

/// With slips of one scale.
algebra::Gaussian at_scale(algebra::Gaussian seen, const ResidualEvidence& evidence,
                           const SlipCandidate& set, double scale) {
  for (std::size_t i = 0; i < set.size; ++i)
    seen.sd[i] = scale * evidence.usual_slip[set.members[i]] / evidence.sd[set.members[i]];
  return seen;
}

}  // namespace

std::optional<WeighedSet> weigh(const ResidualEvidence& evidence, const SlipCandidate& set,
                                double log_odds, double floor) {
  if (set.size == 0) return WeighedSet{set, 0.0, 0.0};
  const algebra::Gaussian slips = seen(evidence, set);
  const auto explained = algebra::explained(slips, 1.0 - kFullyCorrelated);
  if (!explained) return std::nullopt;
  const double log_prior = static_cast<double>(set.size) * log_odds;
  if (log_prior + 0.5 * *explained < floor) return std::nullopt;
  algebra::LogSum sum;
  for (const double scale : kScales)
    sum.add(algebra::log_ratio(at_scale(slips, evidence, set, scale)));
  const double mean = sum.value() - std::log(static_cast<double>(kScales.size()));
  return WeighedSet{set, log_prior + mean, *explained};
}

std::vector<double> slip_sizes(const ResidualEvidence& evidence, const SlipCandidate& set) {
  const algebra::Gaussian slips = seen(evidence, set);
  std::array<algebra::Posterior, kScales.size()> at;
  algebra::LogSum sum;
  for (std::size_t s = 0; s < kScales.size(); ++s) {
    at[s] = algebra::posterior(at_scale(slips, evidence, set, kScales[s]));
    sum.add(at[s].log_ratio);
  }
  std::vector<double> sizes(set.size, 0.0);
  for (const algebra::Posterior& one : at)
    for (std::size_t i = 0; i < set.size; ++i)
      sizes[i] += std::exp(one.log_ratio - sum.value()) * one.mean[i] * evidence.sd[set.members[i]];
  return sizes;
}

}  // namespace stakewright::adjustment
