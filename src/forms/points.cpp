#include "points.hpp"

namespace stakewright::forms {

std::map<std::string, base::Point> points_by_label(const layout::Plan& plan) {
  std::map<std::string, base::Point> points;
  for (const layout::Pin& pin : plan.pins) points[pin.name] = pin.at;
  for (const layout::Stake& corner : layout::stakes(plan)) points[corner.label] = corner.at;
  points[layout::kCenterLabel] = plan.center;
  return points;
}

}  // namespace stakewright::forms
