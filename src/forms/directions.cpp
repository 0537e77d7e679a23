#include "directions.hpp"

#include <cmath>
#include <numbers>

#include "stakewright/base/angle.hpp"

namespace stakewright::forms {

Direction paper_direction(base::Point ground) {
  const double length = base::norm_m(ground);
  return {ground.x_m / length, -ground.y_m / length};
}

Direction turned(Direction direction, double angle_rad) {
  const double c = std::cos(angle_rad);
  const double s = std::sin(angle_rad);
  return {c * direction.x - s * direction.y, s * direction.x + c * direction.y};
}

Direction back(Direction direction) { return {-direction.x, -direction.y}; }

std::vector<Direction> fan(Direction direction) {
  std::vector<Direction> directions{direction};
  for (const double degrees : {10.0, 20.0, 30.0, 42.0}) {
    directions.push_back(turned(direction, degrees * base::kDegree_rad));
    directions.push_back(turned(direction, -degrees * base::kDegree_rad));
  }
  return directions;
}

std::vector<Direction> all_round() {
  constexpr int kDirections = 16;
  std::vector<Direction> directions;
  directions.reserve(kDirections);
  for (int k = 0; k < kDirections; ++k)
    directions.push_back(
        turned({1.0, 0.0}, (k % 2 == 0 ? k : -k) * std::numbers::pi / kDirections));
  return directions;
}

}  // namespace stakewright::forms
