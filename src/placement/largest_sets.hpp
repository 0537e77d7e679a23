// Which corners stand right to one another: the largest sets that one rigid laying of the
// plan puts within tolerance.  Method and proof: docs/methods/placement.md.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
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

// What the search is made of, for its tests.

/// A set of corners as bits.
using Mask = std::uint64_t;

Mask mask_of(const Set& set);
Set set_of(Mask mask);

/// Two corners, and the turn at which they lie best.
struct Pair {
  std::size_t i = 0;
  std::size_t j = 0;
  double turn_rad = 0.0;
  double slack_rad = 0.0;  ///< how far from `turn_rad` both can still be within tolerance
};

/// What is worked out once for a question.
struct Ground {
  Question question;  ///< both figures moved so that their first corners lie at nothing
  base::Point planned_origin;
  base::Point found_origin;
  std::vector<Pair> pairs;    ///< longest first; with a pivot, those of the pivot only
  std::vector<Mask> clashes;  ///< per corner: those it can never be in tolerance together with
};

Ground ground_of(const Question& question);

/// How close a set can be brought.
struct Closest {
  double turn_rad = 0.0;
  base::Point shift;     ///< after the turn, between the moved figures
  double worst_m = 0.0;  ///< the largest deviation
  Mask witness = 0;      ///< corners of the set that alone can be brought no closer
};

/// Searches until the largest deviation is at most `enough_m`, or smallest.
Closest closest(const Ground& ground, Mask set, double enough_m);

struct Circle {
  base::Point center;
  double radius_m = 0.0;
  std::array<std::size_t, 3> rim{};  ///< points that hold it open
  std::size_t rim_count = 0;
};

/// Smallest circle around `points`, at least one.  They are tried in the order given by
/// `order` (a permutation of their indices); the rim is moved to its front, so that the next
/// call for nearly the same points is one pass.
Circle smallest_circle(std::span<const base::Point> points, std::vector<std::size_t>& order);

}  // namespace stakewright::placement
