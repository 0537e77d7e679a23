// What the readings cannot know, where the whole figure lies on the ground, is taken from the
// plan: the corners of the datum keep their mean place and turn.
#pragma once

#include <Eigen/Core>

#include "algebra.hpp"
#include "model.hpp"

namespace stakewright::adjustment {

/// Motions of the whole figure that change no reading, and the conditions that stop them.
struct Datum {
  Eigen::MatrixXd motions;     ///< G: one motion a column, over all unknowns
  Eigen::MatrixXd conditions;  ///< S: Sᵀ·(movement) = 0
};

/// The datum at a state whose readings leave `defect` motions of the whole free.
Datum datum(const Network& network, const Unknowns& unknowns, const State& state,
            const LinearModel& model, Eigen::Index defect);

/// S-transformation: I − G·(SᵀG)⁻¹·Sᵀ.  Brings a correction, and on both sides a covariance, to the
/// datum. Source: W. Baarda, S-transformations and criterion matrices, 1973 (from memory).
Eigen::MatrixXd s_transformation(const Datum& datum);

}  // namespace stakewright::adjustment
