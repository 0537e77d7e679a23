// How large a sum of squares may be by noise alone.
#pragma once

namespace stakewright::placement {

/// Sums of squares in units of the stated variances: chi-square when `redundancy` is 0, else over
/// `variance_factor`, which comes from the readings themselves with that redundancy: an F test.
class Significance {
 public:
  Significance(double variance_factor, int redundancy)
      : factor_(redundancy > 0 ? variance_factor : 1.0), redundancy_(redundancy) {}

  /// The sum over the variance factor.
  [[nodiscard]] double statistic(double sum) const { return sum / factor_; }

  /// Value a statistic of `freedom` degrees exceeds by noise with chance `alpha`.
  [[nodiscard]] double limit(int freedom, double alpha) const;

  /// Chance that noise alone gives this statistic or more.
  [[nodiscard]] double by_noise(double statistic, int freedom) const;

  /// Non-centrality, in the statistic, with which the limit is passed with chance `power`.
  [[nodiscard]] double non_centrality(int freedom, double alpha, double power) const;

 private:
  [[nodiscard]] double beyond(double limit, int freedom, double non_centrality) const;

  double factor_;
  int redundancy_;
};

}  // namespace stakewright::placement
