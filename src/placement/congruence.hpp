// Whether the difference between two rounds is more than noise, free of where the whole figure
// lies: the congruency test, and the stakes that pass it.
#pragma once

#include <cstddef>
#include <vector>

#include "stakewright/algebra/algebra.hpp"
#include "stakewright/placement/movement.hpp"

namespace stakewright::placement {

/// How large a sum of squares may be by noise alone.
///
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

/// The difference of some stakes.
struct Congruence {
  double form = 0.0;  ///< dᵀ Q⁺ d
  int freedom = 0;    ///< 2k, less three when nothing ties the figure to the ground
};

/// Of the stakes in `of`; two or more unless the rounds are tied, one or more when they are.
/// Before and after are laid on one another over `of` first, so that a turn of the whole figure
/// costs no second-order error.
Congruence congruence(const TwoRounds& rounds, const std::vector<std::size_t>& of);

/// Per stake of `of`: what the form of `congruence` gains with the square of a movement of that
/// stake alone.
std::vector<algebra::Symmetric> sensitivity(const TwoRounds& rounds,
                                            const std::vector<std::size_t>& of);

/// Rounds as the placement takes them: before as the plan, after as found.
Survey laid_over(const TwoRounds& rounds);

struct StableSet {
  std::vector<std::size_t> stakes;  ///< rising
  double statistic = 0.0;
};

struct StableSets {
  std::vector<StableSet> sets;  ///< of equal size, best fit first; empty when no set holds
  bool proven = true;           ///< no larger set passes
};

/// Every set is looked at to this many points: 12 corners and the center pin.
inline constexpr std::size_t kEverySet = 13;

/// The largest sets among `measured` that hold all of `always` and pass the congruency test at
/// `alpha`.  Above `kEverySet` points one at a time is taken out, the one whose going helps most,
/// and each is tried back in at the end.
StableSets stable_sets(const TwoRounds& rounds, const std::vector<std::size_t>& measured,
                       const std::vector<std::size_t>& always, const Significance& significance,
                       double alpha);

}  // namespace stakewright::placement
