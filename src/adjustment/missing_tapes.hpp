// The tapes, not yet pulled, that would fix corners which the readings leave loose.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "rigid_body.hpp"
#include "stakewright/adjustment/adjust.hpp"

namespace stakewright::adjustment {

/// For each corner in `corners` the tapes that would fix it to `body`.
///
/// The tapes are sides and diagonals without a reading in `readings`, taken one after another: each
/// time the one that stops most of the motions still free.  Each stops one motion, so there are no
/// more of them than there are free motions.
std::vector<Loose> missing_tapes(const Network& network, const Unknowns& unknowns,
                                 const Eigen::MatrixXd& free_motions, const RigidBody& body,
                                 const std::vector<std::size_t>& corners,
                                 const std::vector<std::size_t>& readings);

}  // namespace stakewright::adjustment
