// The tapes, not yet pulled, that would fix corners which the readings leave loose.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "rigid_body.hpp"
#include "stakewright/adjustment/adjust.hpp"

namespace stakewright::adjustment {

struct MissingTapes {
  std::vector<MissingTape> all;  ///< with these the whole figure is fixed
  std::vector<Loose> loose;  ///< for each corner asked for, those of them that fix it to the body
};

/// The tapes that would fix `corners` to `body`, or to one another where there is no body.
///
/// The tapes are sides and diagonals without a length in `readings`, taken one after another: each
/// time the one that stops most of the motions still free.  Each stops one motion, so there are no
/// more of them than there are free motions.
MissingTapes missing_tapes(const Network& network, const Unknowns& unknowns,
                           const FreeMotions& freedom, const RigidBody& body,
                           const std::vector<std::size_t>& corners,
                           const std::vector<std::size_t>& readings);

}  // namespace stakewright::adjustment
