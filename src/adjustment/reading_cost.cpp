#include "reading_cost.hpp"

#include <algorithm>

#include "stakewright/base/turning.hpp"

namespace stakewright::adjustment {

bool LengthCost::Evaluate(const double* const* parameters, double* residuals,
                          double** jacobians) const {
  const ModelLength model =
      model_length({parameters[0][0], parameters[0][1]}, {parameters[1][0], parameters[1][1]},
                   parameters[2][0], parameters[3][0]);
  if (!model.defined) return false;
  residuals[0] = (model.length_m - length_m_) / sd_m_;
  if (jacobians == nullptr) return true;
  const std::array<double, 2> by_to = {model.by_to.x_m / sd_m_, model.by_to.y_m / sd_m_};
  if (jacobians[0] != nullptr)
    std::transform(by_to.begin(), by_to.end(), jacobians[0], [](double d) { return -d; });
  if (jacobians[1] != nullptr) std::copy(by_to.begin(), by_to.end(), jacobians[1]);
  if (jacobians[2] != nullptr) jacobians[2][0] = model.distance_m / sd_m_;
  if (jacobians[3] != nullptr) jacobians[3][0] = 1.0 / sd_m_;
  return true;
}

bool AngleCost::Evaluate(const double* const* parameters, double* residuals,
                         double** jacobians) const {
  const ModelAngle model =
      model_angle({parameters[0][0], parameters[0][1]}, {parameters[1][0], parameters[1][1]},
                  {parameters[2][0], parameters[2][1]});
  if (!model.defined) return false;
  residuals[0] = base::wrapped_rad(model.angle_rad - angle_rad_) / sd_rad_;
  if (jacobians == nullptr) return true;
  const auto fill = [&](double* jacobian, base::Point by) {
    if (jacobian == nullptr) return;
    jacobian[0] = by.x_m / sd_rad_;
    jacobian[1] = by.y_m / sd_rad_;
  };
  fill(jacobians[0], model.by_from);
  fill(jacobians[1], model.by_at);
  fill(jacobians[2], model.by_to);
  return true;
}

bool PriorCost::Evaluate(const double* const* parameters, double* residuals,
                         double** jacobians) const {
  residuals[0] = parameters[0][0] / sd_;
  if (jacobians != nullptr && jacobians[0] != nullptr) jacobians[0][0] = 1.0 / sd_;
  return true;
}

}  // namespace stakewright::adjustment
