// Small Gaussian updates: sizes s ~ N(m, T²) on a few columns, T diagonal, seen
// through a Gram matrix G = U'WU and a projection g = U'Wy.
#pragma once

#include <array>
#include <cstddef>

namespace stakewright::suspects {

/// Causes of one set act along at most this many columns together.
inline constexpr std::size_t kMostDimensions = 12;

struct Gaussian {
  std::size_t size = 0;
  std::array<double, kMostDimensions> projection{};  ///< g
  std::array<double, kMostDimensions> mean{};        ///< m
  std::array<double, kMostDimensions> sd{};          ///< T; 0 is a size that is known
  std::array<std::array<double, kMostDimensions>, kMostDimensions> gram;  ///< filled to `size`
};

struct Posterior {
  double log_ratio = 0.0;  ///< log marginal likelihood against no cause at all
  std::array<double, kMostDimensions> mean{};
  std::array<std::array<double, kMostDimensions>, kMostDimensions> covariance{};
};

/// log ratio = g'm - m'Gm/2 + u'S⁻¹u/2 - ln|S|/2 with S = I + TGT, u = T(g - Gm);
/// mean = m + TS⁻¹u, covariance = TS⁻¹T.  Holds for singular G and for sizes that are known.
Posterior posterior(const Gaussian& prior);

/// The log ratio of `posterior` alone.
double log_ratio(const Gaussian& prior);

/// The same for one or two sizes that share one sd, in closed form.
double log_ratio_of_one(double gram, double projection, double mean, double sd);
double log_ratio_of_two(const std::array<double, 3>& gram, const std::array<double, 2>& projection,
                        const std::array<double, 2>& mean, double sd);

}  // namespace stakewright::suspects
