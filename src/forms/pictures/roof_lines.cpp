#include "roof_lines.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace stakewright::forms {
namespace {

using base::Point;

Point unit(Point a) { return (1.0 / base::norm_m(a)) * a; }

/// A plate side: its left corner, the way along it, and outward.
struct Side {
  Point corner;
  Point along;
  Point out;
  double run_m = 0.0;  ///< to the apex, square to the side
};

std::vector<Side> sides_of(const std::vector<Point>& corners, Point apex) {
  std::vector<Side> sides;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    Side side;
    side.corner = corners[i];
    side.along = unit(corners[(i + 1) % corners.size()] - corners[i]);
    side.out = -1.0 * base::clockwise(side.along);
    side.run_m = base::dot(corners[i] - apex, side.out);
    sides.push_back(side);
  }
  return sides;
}

/// Where two sides meet once each is shifted outward.
Point meet(const Side& before, double before_m, const Side& here, double here_m) {
  // The meet is corner + a·out of one + b·out of the other, at the given distance from both.
  const double c = base::dot(before.out, here.out);
  const double determinant = 1.0 - c * c;
  const double a = (before_m - c * here_m) / determinant;
  const double b = (here_m - c * before_m) / determinant;
  return here.corner + a * before.out + b * here.out;
}

std::vector<Point> shifted(const std::vector<Side>& sides, const std::vector<double>& by_m) {
  std::vector<Point> corners;
  for (std::size_t i = 0; i < sides.size(); ++i) {
    const std::size_t before = (i + sides.size() - 1) % sides.size();
    corners.push_back(meet(sides[before], by_m[before], sides[i], by_m[i]));
  }
  return corners;
}

std::vector<double> overhangs(const roof::Carry& carry) {
  std::vector<double> values;
  for (const roof::EaveSide& eave : carry.eaves)
    values.push_back(eave.overhang.found.value_or(eave.overhang.planned));
  return values;
}

/// A hub's faces stand square to the hips: its corners lie between them.
std::vector<Point> hub_of(const std::vector<Point>& plate, Point apex, double across_m) {
  std::vector<Point> corners;
  if (across_m <= 0.0) return corners;
  for (std::size_t i = 0; i < plate.size(); ++i) {
    const Point one = unit(plate[i] - apex);
    const Point next = unit(plate[(i + 1) % plate.size()] - apex);
    corners.push_back(apex + (0.5 * across_m / (1.0 + base::dot(one, next))) * (one + next));
  }
  return corners;
}

}  // namespace

bool has_found(const roof::Carry& carry) {
  return std::any_of(carry.parts.begin(), carry.parts.end(),
                     [](const roof::Part& part) { return part.line.found.has_value(); });
}

RoofLines roof_lines(const job::Job& job, const roof::Carry& carry,
                     const roof::FoundCorners* found) {
  RoofLines lines;
  lines.labels = layout::corner_labels(job.plan.polygon.sides);
  lines.apex = carry.apex.at;
  const std::vector<Point> corners = found != nullptr && has_found(carry)
                                         ? found->corners
                                         : layout::corners_of(job.plan.polygon, job.plan);
  const std::vector<double> offsets(corners.size(), job.plate_offset_m);
  lines.plate = shifted(sides_of(corners, lines.apex), offsets);
  const std::vector<Side> sides = sides_of(lines.plate, lines.apex);
  const std::vector<double> over = overhangs(carry);
  assert(over.size() == sides.size());
  lines.eave = shifted(sides, over);
  lines.hub = hub_of(lines.plate, lines.apex, job.roof.hub_m);
  const double height_m = carry.apex.height_m;
  for (std::size_t k = 0; k < carry.parts.size(); ++k) {
    const roof::Part& part = carry.parts[k];
    const double line_m = part.line.found.value_or(part.line.planned);
    if (part.kind == roof::PartKind::hip) {
      const std::size_t i = part.at.corner;
      const Point in = unit(lines.apex - lines.plate[i]);
      const double run_m = base::distance_m(lines.apex, lines.plate[i]);
      const double level = run_m / std::hypot(run_m, height_m);
      lines.rafters.push_back(
          {k, lines.eave[i], lines.plate[i], lines.apex - (part.shortening_m * level) * in});
    } else if (part.kind == roof::PartKind::common || part.kind == roof::PartKind::jack) {
      const std::size_t i = part.at.corner;
      const Side& side = sides[i];
      const Point plate = side.corner + part.from_corner_m * side.along;
      const double level = side.run_m / std::hypot(side.run_m, height_m);
      lines.rafters.push_back({k, plate + over[i] * side.out, plate,
                               plate - ((line_m - part.shortening_m) * level) * side.out});
    }
  }
  return lines;
}

}  // namespace stakewright::forms
