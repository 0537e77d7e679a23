// Heights of the points a rod stood on, by least squares.
//
// Units: meters.  Height differences are right to 1e-10 m and variances to a millionth of
// themselves
// (`Heights.AgreeWithGslInDifferencesAndTheirCovariance`).  docs/methods/levels.md.
#pragma once

#include <cstddef>
#include <vector>

#include "stakewright/adjustment/linear.hpp"
#include "stakewright/base/matrix.hpp"
#include "stakewright/levels/rods.hpp"

namespace stakewright::levels {

struct SetUp {
  bool tied = false;          ///< its height belongs to the same datum as the points' heights
  double height_m = 0.0;      ///< of the line of sight; 0 when it is not tied
  std::size_t rod_count = 0;  ///< readings made from it
};

/// Heights above the datum: the bench mark's own, or 0 at the mean of the footings (a free network,
/// referred to them by an S-transformation).
struct Heights {
  bool on_bench_mark = false;
  std::vector<bool> known;       ///< per point of the rods: tied to the datum by readings
  std::vector<double> height_m;  ///< 0 where not known
  base::Matrix covariance;       ///< of the points, a priori; zero where not known
  std::vector<SetUp> set_ups;    ///< as in the rods
  int unknowns = 0;
  /// Figures of the whole set, and per reading; its unknowns are the set-ups and points.
  adjustment::LinearAdjustment sums;
  /// Points that readings tie to one another but not to the datum, each group by itself.
  std::vector<std::vector<std::size_t>> apart;
};

/// Readings of rods that share no set-up and no point hang together by nothing.  The group of the
/// bench mark is taken where a footing is in it; otherwise the group with most footings (then most
/// readings), and its datum is the mean of its footings.
///
/// `excluded`: readings to leave out, such that the others check.
/// Without readings, or where leaving some out frees a height, nothing is known.
Heights heights(const Rods& rods, const Wanted& wanted,
                const std::vector<std::size_t>& excluded = {});

/// The readings of one linear model, for the test of slips: rows are the readings of the rods.
adjustment::LinearReadings linear_readings(const Rods& rods);

}  // namespace stakewright::levels
