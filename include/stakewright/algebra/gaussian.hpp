// Small Gaussian updates: sizes s ~ N(m, T²) on a few columns, T diagonal, seen
// through a Gram matrix G = U'WU and a projection g = U'Wy.  In these sizes a library's
// decompositions take twice the time of plain loops, and here nearly all of it is spent.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>

namespace stakewright::algebra {

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

/// g'G⁻¹g, what the columns explain with no prior at all.  Empty when less than the share `least`
/// of one column's own square is left beside the columns before it: it cannot be told from them.
std::optional<double> explained(const Gaussian& seen, double least);

/// The same for one or two sizes that share one sd, in closed form.
double log_ratio_of_one(double gram, double projection, double mean, double sd);
double log_ratio_of_two(const std::array<double, 3>& gram, const std::array<double, 2>& projection,
                        const std::array<double, 2>& mean, double sd);

/// Running log of a sum of exponentials, of weights too large or too small for a double.
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

}  // namespace stakewright::algebra
