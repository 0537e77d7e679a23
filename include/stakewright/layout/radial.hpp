// Staking from the center pin with an angle circle and one tape.
//
// Units: meters and radians.
#pragma once

#include <string>
#include <vector>

#include "stakewright/layout/plan.hpp"

namespace stakewright::layout {

/// One stake: turn this far clockwise from the sight on the mark, and pull this far.
struct RadialStake {
  std::string stake;
  double angle_rad = 0.0;  ///< in [0, 2 pi); 0 for the mark itself
  double length_m = 0.0;
};

struct Radial {
  std::string at;    ///< where the instrument stands: the center pin
  std::string mark;  ///< what its circle is set to nought on
  double mark_m = 0.0;
  std::vector<RadialStake> stakes;  ///< in label order
};

/// The circle is set to nought on the first held stake; without one on the site pin farthest from
/// the center, since a far mark turns the figure least; without pins on the first stake.
/// Throws InputError for a held label that is no corner.
Radial radial(const Plan& plan);

}  // namespace stakewright::layout
