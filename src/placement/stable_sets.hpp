// The stakes that kept their shape between two rounds.
#pragma once

#include <cstddef>
#include <vector>

#include "significance.hpp"
#include "stakewright/placement/movement.hpp"

namespace stakewright::placement {

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
