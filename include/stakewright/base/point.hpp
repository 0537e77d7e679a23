// A place on the ground, and the directions the trade names from the center.
//
// Units: meters and radians.  x is to the right, y is forward, of the site's
// own axes.  Bearings turn clockwise from forward, as a crew would walk them.
#pragma once

#include <cmath>
#include <span>

namespace stakewright::base {

struct Point {
  double x_m = 0.0;  ///< to the right
  double y_m = 0.0;  ///< forward
};

constexpr Point operator+(Point a, Point b) { return {a.x_m + b.x_m, a.y_m + b.y_m}; }
constexpr Point operator-(Point a, Point b) { return {a.x_m - b.x_m, a.y_m - b.y_m}; }
constexpr Point operator*(double k, Point a) { return {k * a.x_m, k * a.y_m}; }
constexpr bool operator==(Point a, Point b) { return a.x_m == b.x_m && a.y_m == b.y_m; }

/// Scalar product, in square meters for two places.
constexpr double dot(Point a, Point b) { return a.x_m * b.x_m + a.y_m * b.y_m; }

/// Length of the vector, in meters.
inline double norm_m(Point a) { return std::hypot(a.x_m, a.y_m); }

/// Straight distance between two places, in meters.
inline double distance_m(Point a, Point b) { return norm_m(b - a); }

/// The mean place of one or more.
inline Point middle_of(std::span<const Point> points) {
  Point sum;
  for (const Point point : points) sum = sum + point;
  return (1.0 / static_cast<double>(points.size())) * sum;
}

/// Unit vector along a bearing (clockwise from forward).
inline Point along(double bearing_rad) { return {std::sin(bearing_rad), std::cos(bearing_rad)}; }

/// The vector a quarter turn clockwise from `a`, seen from above: "sideways"
/// when `a` points outward.
constexpr Point clockwise(Point a) { return {a.y_m, -a.x_m}; }

/// Bearing of the vector, in (-pi, pi].  Zero for the zero vector.
inline double bearing_rad(Point a) { return std::atan2(a.x_m, a.y_m); }

}  // namespace stakewright::base
