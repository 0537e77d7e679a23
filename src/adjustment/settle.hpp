// From the plan to the places that fit the readings best.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <optional>
#include <vector>

#include "determinacy.hpp"
#include "model.hpp"

namespace stakewright::adjustment {

/// What the readings cannot know, where the whole figure lies on the ground, is taken from the
/// plan: the corners of the datum keep their mean place and turn (S-transformation, see algebra).
struct Datum {
  Eigen::MatrixXd motions;  ///< G: one motion a column that changes no reading, over all unknowns
  Eigen::MatrixXd answer;   ///< D: how the motions answer to a movement of the unknowns
};

/// Where the iteration came to rest, with everything that belongs to that place.
struct Fit {
  State state;
  LinearModel model;  ///< at `state`: the misclosures are the residuals, observed minus adjusted
  Datum datum;        ///< empty when pins leave no motion free
  Eigen::MatrixXd cofactor;  ///< of all unknowns, at the datum
};

/// Ceres from the plan, then Gauss-Newton steps with the datum's conditions until no place
/// moves by more than `kLastStep_m`.  Empty when it finds no rest.
std::optional<Fit> settle(const Network& network, const Unknowns& unknowns,
                          const std::vector<std::size_t>& readings, Eigen::Index defect);

/// False when the corners found are those of another polygon, or run the other way round.
bool draws_the_plan(const Network& network, const Determinacy& known, const State& state);

}  // namespace stakewright::adjustment
