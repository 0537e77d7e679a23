// Equal lengths of the polygon held against each other: a check that needs a pencil only.
//
// Units: meters.  Formulas: docs/methods/field-form.md.
#pragma once

#include <cstddef>
#include <vector>

#include "stakewright/base/tolerance.hpp"
#include "stakewright/layout/plan.hpp"
#include "stakewright/readings/reading.hpp"

namespace stakewright::suspects {

/// The pulls that span as many sides, which all have one planned length.
struct PencilCheck {
  int skip = 1;             ///< sides spanned: 1 a side
  double planned_m = 0.0;   ///< length of each
  layout::Tape example;     ///< the first of the pulls
  std::size_t pulls = 0;    ///< how many: two or more
  double corners_m = 0.0;   ///< longest less shortest that corners in tolerance can give
  double readings_m = 0.0;  ///< longest less shortest that good readings of one length give
  double limit_m = 0.0;     ///< both together: beyond it a corner is out or a reading wrong
};

/// Largest difference of two lengths that are planned equal, their corners each within
/// `tolerance_m` of their places.  Without a corner in common 4 tolerances; with one, where the
/// two lengths lie `angle_rad` apart, 2 tolerances · (1 + sin of half the angle at which the far
/// ends are seen from a tolerance nearer them); never more than that, and less by no more than
/// twice the tolerance squared over the length.
double largest_difference_m(double length_m, double tolerance_m);
double largest_difference_at_corner_m(double length_m, double angle_rad, double tolerance_m);

/// One check for each skip that two or more of the pulls share, by skip.  Sides and diagonals
/// only: where the center pin stands decides no corner.  All pulls of a check are made with one
/// tape: what it reads long throughout cancels.
///
/// `limit_m` is exceeded by good readings of corners in tolerance with a chance of
/// 1 − tolerance.confidence at most, all checks together.
std::vector<PencilCheck> pencil_checks(const layout::Plan& plan, const base::Tolerance& tolerance,
                                       const readings::Instrument& instrument,
                                       const std::vector<layout::Tape>& pulls);

}  // namespace stakewright::suspects
