#include "stakewright/layout/plan.hpp"

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::layout {
namespace {

/// How many tapes span `skip` sides: the longest of an even polygon join each pair once.
int tapes_of_skip(int sides, int skip) { return 2 * skip == sides ? skip : sides; }

}  // namespace

std::vector<base::Point> corners_of(const Polygon& polygon, const Plan& plan) {
  const double step = central_angle_rad(polygon);
  const double first = plan.facing_rad - 0.5 * step;
  std::vector<base::Point> corners;
  corners.reserve(static_cast<std::size_t>(polygon.sides));
  for (int i = 0; i < polygon.sides; ++i)
    corners.push_back(plan.center + polygon.corner_radius_m * base::along(first + i * step));
  return corners;
}

std::vector<Stake> stakes(const Plan& plan) {
  const auto labels = corner_labels(plan.polygon.sides);
  const auto corners = corners_of(plan.polygon, plan);
  std::vector<Stake> result;
  for (std::size_t i = 0; i < labels.size(); ++i) result.push_back({labels[i], corners[i]});
  return result;
}

std::vector<Tape> check_tapes(const Plan& plan) {
  const int sides = plan.polygon.sides;
  const auto labels = corner_labels(sides);
  std::vector<Tape> tapes;
  for (int skip = 1; 2 * skip <= sides; ++skip)
    for (int i = 0; i < tapes_of_skip(sides, skip); ++i)
      tapes.push_back({labels[static_cast<std::size_t>(i)],
                       labels[static_cast<std::size_t>((i + skip) % sides)], skip,
                       diagonal_m(plan.polygon, skip)});
  for (const auto& label : labels)
    tapes.push_back({kCenterLabel, label, 0, plan.polygon.corner_radius_m});
  return tapes;
}

std::vector<LineFigures> lines(const Plan& plan) {
  std::vector<LineFigures> result;
  for (const Line& line : plan.lines) {
    try {
      const Polygon ring = parallel(plan.polygon, line.offset_m);
      result.push_back({line.name, line.offset_m, side_m(ring), ring.corner_radius_m, area_m2(ring),
                        corners_of(ring, plan)});
    } catch (const base::InputError& problem) {
      throw problem.at("line " + base::in_quotes(line.name));
    }
  }
  return result;
}

}  // namespace stakewright::layout
