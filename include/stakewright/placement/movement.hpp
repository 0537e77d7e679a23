// Which stakes moved between two rounds of readings, and which only seem to (deformation analysis
// by congruency tests).
//
// Units: meters and radians.  Formulas, sources and simulated figures: docs/methods/movement.md.
#pragma once

#include <cstddef>
#include <vector>

#include "stakewright/base/matrix.hpp"
#include "stakewright/base/point.hpp"
#include "stakewright/placement/placement.hpp"

namespace stakewright::placement {

/// The same stakes found in two rounds.
struct TwoRounds {
  std::vector<base::Point> planned;  ///< where the job wants them: gives outward and sideways
  base::Point center;                ///< planned place of the center
  std::vector<base::Point> before;
  std::vector<base::Point> after;
  base::Matrix covariance;        ///< 2n x 2n of after - before: both rounds' covariances added
  std::vector<bool> measured;     ///< in both rounds
  std::vector<std::size_t> hold;  ///< stakes that are not to move
  bool tied = false;  ///< known points give the place of the whole figure in both rounds
  /// Of both rounds' readings together, with its redundancy.  1 and 0: the standard deviations are
  /// taken as stated.  Otherwise every test is an F test with this factor.
  double variance_factor = 1.0;
  int redundancy = 0;
};

/// What the tests ask.
struct MovementLevel {
  double confidence = 0.95;  ///< 1 - confidence: how often noise alone may look like movement
  double power = 0.80;       ///< how often the smallest movement shown comes to light
};

enum class Moved { no, yes, undecided };

/// For a stake that is not measured in both rounds all figures are zero and `moved` is undecided.
struct StakeMovement {
  double outward_m = 0.0;   ///< along its corner radius; 0 for the center pin
  double sideways_m = 0.0;  ///< and square to it, positive clockwise; 0 for the center pin
  double distance_m = 0.0;
  Ellipse ellipse;                ///< of the movement, at the confidence
  double by_noise = 1.0;          ///< chance that noise alone shows this stake moved so far
  double chance = 0.0;            ///< chance that it is among the stakes that moved, if any did
  double smallest_shown_m = 0.0;  ///< movement in its worst direction that comes to light
  Moved moved = Moved::undecided;
};

struct Movement {
  bool shown = false;               ///< the two rounds differ by more than noise
  double statistic = 0.0;           ///< dᵀ Q⁺ d over the variance factor
  int freedom = 0;                  ///< degrees of freedom of it
  double limit = 0.0;               ///< of the statistic, at the confidence
  double by_noise = 1.0;            ///< chance of so much by noise alone
  std::vector<std::size_t> stable;  ///< the largest set that kept its shape; all when none moved
  std::vector<std::vector<std::size_t>> alternatives;  ///< other sets of as many, likeliest first
  Datum datum;              ///< what the movements are referred to; empty when tied
  bool hold_moved = false;  ///< the held stakes do not fit each other any more: not used as datum
  bool proven = true;       ///< no larger set kept its shape; always so to 13 points
  std::vector<StakeMovement> stakes;
};

/// Fewer stakes than this in both rounds show no movement of one against the others, unless known
/// points give their places.
inline constexpr std::size_t kFewestCompared = 3;

/// The congruency test of all stakes measured in both rounds; where it fails, the largest set of
/// them that passes it is taken as the stable ground, the difference is referred to that set
/// (S-transformation), and each stake outside it is tested.
///
/// Needs `kFewestCompared` measured stakes, or one when tied; with fewer nothing is shown.
Movement movement(const TwoRounds& rounds, const MovementLevel& level);

}  // namespace stakewright::placement
