// Which corners stand right to one another: the largest sets that one rigid laying of the
// plan puts within tolerance.  Method and proof: docs/methods/placement.md.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "stakewright/base/point.hpp"
#include "stakewright/placement/placement.hpp"

namespace stakewright::placement {

using Set = std::vector<std::size_t>;  ///< corners, by index, rising

struct Question {
  std::vector<base::Point> planned;
  std::vector<base::Point> found;
  double tolerance_m = 0.0;
  std::optional<std::size_t> pivot;  ///< a corner the plan is to be laid on exactly
};

struct Answer {
  std::vector<Set> sets;  ///< of equal size, in no particular order; never empty
  bool proven = true;     ///< no larger set exists, and none of this size is missing
};

/// Exact to `kExactCorners`; above, at least as good as laying the plan on every pair.
inline constexpr std::size_t kExactCorners = 12;

/// At least one corner and at most 64.
Answer largest_sets(const Question& question);

/// The laying whose largest deviation over `set` is smallest.
Rigid minimax(const Question& question, const Set& set);

/// Rounding never turns a stake that stands exactly on the limit: one nanometer.
inline constexpr double kOnLimit_m = 1e-9;

}  // namespace stakewright::placement
