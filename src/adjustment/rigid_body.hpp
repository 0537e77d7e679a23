// Which points hold together, and which move against them, when the readings leave motions free.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <vector>

#include "model.hpp"

namespace stakewright::adjustment {

/// A motion is called free when the readings see it less than this share as well as the motion
/// they see best.  A reading's error then comes out a thousand times larger as an error of place:
/// two tapes crossing flatter than about a twentieth of a degree, or 2 mm grown to 2 m.  Sound
/// figures of 48 corners stand well above it; an exactly free motion comes out near 1e-16.
inline constexpr double kWeakestMotion = 1e-3;

/// Below this share of the whole motion a point counts as standing still: far above the rounding of
/// an exactly free motion, far below any real one.  A nearly free motion leaks this many times the
/// share in which the readings see it into points that are firm.
inline constexpr double kStandingStill = 1e-6;
inline constexpr double kLeak = 5.0;

/// The free motions of a figure, and below which share of one a point counts as standing still.
struct FreeMotions {
  Eigen::MatrixXd motions;  ///< one a column, over the columns of places
  double still = kStandingStill;
};

/// From the rank of a design matrix at the plan.
FreeMotions free_motions(const Eigen::MatrixXd& design);

/// Points that keep their distances in every free motion.
struct RigidBody {
  std::size_t first = 0;  ///< two of its points, taken as at rest
  std::size_t second = 0;
  std::vector<bool> member;  ///< per network point
  std::size_t corners = 0;   ///< among the members
  std::size_t size = 0;      ///< members
};

/// The body with most corners, then with most points; without members when no two points keep their
/// distance.  `taking_part`: the points that are asked, or known and reached by a reading.
RigidBody largest_rigid_body(const Network& network, const Unknowns& unknowns,
                             const FreeMotions& freedom, const std::vector<bool>& taking_part);

/// How far a point moves in each of `motions` when `body` is at rest: two rows, one column a
/// motion.
Eigen::MatrixXd movement_against(const RigidBody& body, std::size_t point, const Network& network,
                                 const Unknowns& unknowns, const Eigen::MatrixXd& motions);

}  // namespace stakewright::adjustment
