// The same figures by plane trigonometry, apart from the code under test: lines met by
// Cramer's rule, runs as distances from a line, angles from slopes.
#pragma once

#include <cmath>
#include <vector>

#include "stakewright/base/point.hpp"

namespace stakewright::roof::trade {

using base::Point;

/// a x + b y = c.
struct Line {
  double a, b, c;
};

/// The line through two corners, shifted to the left of the way from one to the other:
/// outward, for corners that run clockwise.
inline Line side_line(Point from, Point to, double outward_m) {
  const double length = base::distance_m(from, to);
  const double a = -(to.y_m - from.y_m) / length;
  const double b = (to.x_m - from.x_m) / length;
  return {a, b, a * from.x_m + b * from.y_m + outward_m};
}

inline Point meet(const Line& p, const Line& q) {
  const double determinant = p.a * q.b - q.a * p.b;
  return {(p.c * q.b - q.c * p.b) / determinant, (p.a * q.c - q.a * p.c) / determinant};
}

/// The polygon with every side shifted outward.
inline std::vector<Point> shifted(const std::vector<Point>& corners, double outward_m) {
  const std::size_t n = corners.size();
  std::vector<Point> result;
  for (std::size_t i = 0; i < n; ++i)
    result.push_back(meet(side_line(corners[(i + n - 1) % n], corners[i], outward_m),
                          side_line(corners[i], corners[(i + 1) % n], outward_m)));
  return result;
}

/// Distance of a point inside from the side.
inline double run_m(Point from, Point to, Point apex) {
  const Line line = side_line(from, to, 0.0);
  return line.c - line.a * apex.x_m - line.b * apex.y_m;
}

/// Angle at which the way round turns at a corner.
inline double turn_rad(Point before, Point here, Point after) {
  const Point in = here - before;
  const Point out = after - here;
  return std::acos(base::dot(in, out) / (base::norm_m(in) * base::norm_m(out)));
}

/// Angle between two sloping planes whose level outward directions are `turn` apart, by the
/// spherical law of cosines on their normals.
inline double between_faces_rad(double slope_a_rad, double slope_b_rad, double turn) {
  return std::acos(std::cos(slope_a_rad) * std::cos(slope_b_rad) +
                   std::sin(slope_a_rad) * std::sin(slope_b_rad) * std::cos(turn));
}

}  // namespace stakewright::roof::trade
