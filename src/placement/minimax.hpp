// The laying that brings a set of corners closest: the smallest largest deviation.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "largest_sets.hpp"

namespace stakewright::placement {

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

}  // namespace stakewright::placement
