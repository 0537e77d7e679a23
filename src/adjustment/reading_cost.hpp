// One reading as a Ceres residual: (model − observed) over its standard deviation.
#pragma once

#include <ceres/sized_cost_function.h>

#include "model.hpp"

namespace stakewright::adjustment {

/// Parameters: near end (2), far end (2), scale (1), zero (1).  The derivative is written out;
/// a test holds it against a numerical one.  False when both ends are at one place.
class LengthCost final : public ceres::SizedCostFunction<1, 2, 2, 1, 1> {
 public:
  LengthCost(double length_m, double sd_m) : length_m_(length_m), sd_m_(sd_m) {}

  bool Evaluate(const double* const* parameters, double* residuals,
                double** jacobians) const override;

 private:
  double length_m_;
  double sd_m_;
};

/// Parameters: from (2), at (2), to (2).  The residual is the angle nearest to zero, so that it
/// does not jump by a turn.  False when a sight has no length.
class AngleCost final : public ceres::SizedCostFunction<1, 2, 2, 2> {
 public:
  AngleCost(double angle_rad, double sd_rad) : angle_rad_(angle_rad), sd_rad_(sd_rad) {}

  bool Evaluate(const double* const* parameters, double* residuals,
                double** jacobians) const override;

 private:
  double angle_rad_;
  double sd_rad_;
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
