// What stands around the polygon: strings and batter boards, and outlines that
// no line of the job may cross.
#pragma once

#include <string>
#include <vector>

#include "stakewright/layout/plan.hpp"

namespace stakewright::layout {

/// One string: a side line drawn out past both its corners to batter boards.
struct String {
  std::string side;            ///< "A-B"
  base::Point nail_before;     ///< on the board beyond the first corner
  base::Point nail_after;      ///< on the board beyond the second corner
  double setback_m = 0.0;      ///< nail to its corner, along the string
  double length_m = 0.0;       ///< nail to nail
};

/// Strings for every side.  The setback is the plan's, or one that stands the
/// boards clear of the outermost line when the plan gives none.
std::vector<String> strings(const Plan& plan);

/// How one line of the job lies to one outline.
struct Clearance {
  std::string line;
  std::string outline;
  double distance_m = 0.0;            ///< least distance; 0 when it crosses
  bool crosses = false;               ///< on the wrong side, or across it
  double beyond_m = 0.0;              ///< how far the farthest point of the line is past the outline
  std::vector<base::Point> crossings;  ///< where the two meet
};

/// Every line (the plan line first) against every outline.
/// Throws InputError when an outline has fewer than three corners or crosses itself.
std::vector<Clearance> clearances(const Plan& plan);

}  // namespace stakewright::layout
