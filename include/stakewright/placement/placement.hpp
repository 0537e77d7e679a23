// The planned polygon laid over the corners found: who is in, who is out, and
// by how much.
//
// Units: meters and radians.  A corner that stands on the limit to 1e-9 m is within it.  Formulas
// and sources: docs/methods/placement.md.
#pragma once

#include <cstddef>
#include <vector>

#include "stakewright/base/matrix.hpp"
#include "stakewright/base/point.hpp"
#include "stakewright/base/tolerance.hpp"
#include "stakewright/placement/chance.hpp"

namespace stakewright::placement {

/// A rigid laying of the plan: turned about the site's origin, then shifted.  Never scaled.
struct Rigid {
  double x_m = 0.0;
  double y_m = 0.0;
  double turn_rad = 0.0;  ///< clockwise
};

/// Where a planned point comes to lie.
base::Point laid(const Rigid& rigid, base::Point planned);

struct Ellipse {
  double major_m = 0.0;  ///< half axes, at the job's confidence
  double minor_m = 0.0;
  double bearing_rad = 0.0;  ///< of the major axis, 0 to pi
};

/// For a corner that is not measured all figures are zero and the verdict is undecided.
struct CornerResult {
  base::Point found;
  base::Point wanted;       ///< the laid plan corner
  double outward_m = 0.0;   ///< how it is off, along its corner radius
  double sideways_m = 0.0;  ///< and square to it, positive clockwise
  double off_m = 0.0;
  double chance_in = 0.0;  ///< chance that its true deviation is within tolerance
  Verdict verdict = Verdict::undecided;
  Ellipse ellipse;
};

/// What is laid over what.
struct Survey {
  std::vector<base::Point> planned;  ///< corners, in order
  base::Point center;                ///< planned place of the center
  std::vector<base::Point> found;
  base::Matrix covariance;     ///< 2n x 2n of `found`
  std::vector<bool> measured;  ///< false: the corner's place is not known; its verdict is undecided
  std::vector<std::size_t> hold;  ///< corners that must not move
};

/// What the laying rests on: it meets the mean place of the corners in `shift` and is turned
/// about it by least squares over those in `turn`.  Both the same: least squares over them.
struct Datum {
  std::vector<std::size_t> shift;
  std::vector<std::size_t> turn;
};

struct Placement {
  Rigid rigid;
  Datum datum;
  std::vector<std::size_t> kept;                       ///< corners the plan was laid on
  std::vector<std::vector<std::size_t>> alternatives;  ///< other sets of as many corners, at most 8
  bool proven = true;  ///< no larger set exists; always so to 12 corners, not always above
  std::vector<CornerResult> corners;
  /// Deviations found - wanted, 2n x 2n, referred to the corners kept (S-transformation).
  base::Matrix deviation_covariance;
};

/// Held stakes stay: with two or more the plan is laid on them by least squares; one alone is
/// met exactly and the turn comes from the others as below.
///
/// Otherwise as many corners as possible within tolerance (exact to 12 corners, a pairwise
/// search or better above), then least squares over the corners kept.  Should that push one of
/// them past tolerance, the laying with the smallest largest deviation over them is taken.
/// Only measured corners take part.
Placement fewest_moves(const Survey& survey, const base::Tolerance& tolerance);

/// Least squares over all measured corners, for comparison.
Placement least_squares(const Survey& survey, const base::Tolerance& tolerance);

/// Covariance of found - wanted when the laying moves along with the found places of its datum
/// (S-transformation).
/// `survey` may hold more points than the placement was made for (the center pin, after the
/// corners).  Rows and columns of points that are not measured are zero.
base::Matrix deviation_covariance(const Survey& survey, const Rigid& rigid, const Datum& datum);

}  // namespace stakewright::placement
