// From the plan to the places that fit the readings best.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <optional>
#include <vector>

#include "datum.hpp"
#include "model.hpp"

namespace stakewright::adjustment {

/// Where the iteration came to rest, with everything that belongs to that place.
struct Fit {
  State state;
  LinearModel model;  ///< at `state`: the misclosures are the residuals, observed minus adjusted
  Datum datum;
  Eigen::MatrixXd cofactor;  ///< of all unknowns, at the datum
};

/// Ceres from the plan, then Gauss-Newton steps with the datum's conditions until no place
/// moves by more than `kLastStep_m`.  Empty when it finds no rest.
std::optional<Fit> settle(const Network& network, const Unknowns& unknowns,
                          const std::vector<std::size_t>& readings, Eigen::Index defect);

}  // namespace stakewright::adjustment
