// One reading as a Ceres residual: (expected − observed) over its standard deviation.
#pragma once

#include <ceres/cost_function.h>
#include <ceres/sized_cost_function.h>

#include "stakewright/readings/observation.hpp"

namespace stakewright::adjustment {

/// Parameters: the places of the reading's points in their order (2 each), then its instrument's
/// scale (1) and zero (1).  The derivatives are written out; a test holds them against numerical
/// ones.  The residual of an angle is the one nearest to zero, so that it does not jump by a turn.
/// False when two of its points are at one place.
class ReadingCost final : public ceres::CostFunction {
 public:
  explicit ReadingCost(readings::Observation observation);

  bool Evaluate(const double* const* parameters, double* residuals,
                double** jacobians) const override;

 private:
  readings::Observation observation_;  ///< its points numbered as the parameters
};

/// A scale or zero with its prior: value over standard deviation.
class PriorCost final : public ceres::SizedCostFunction<1, 1> {
 public:
  explicit PriorCost(double sd) : sd_(sd) {}

  bool Evaluate(const double* const* parameters, double* residuals,
                double** jacobians) const override;

 private:
  double sd_;
};

}  // namespace stakewright::adjustment
