// The regular polygon of the plan line: its size by any one measure, and every
// length that follows from it.
//
// Units: meters, square meters, radians.  Formulas: docs/methods/polygon.md.
#pragma once

#include <string>
#include <vector>

#include "stakewright/base/point.hpp"

namespace stakewright::layout {

inline constexpr int kFewestSides = 3;
inline constexpr int kMostSides = 48;

/// The measure by which a job states its size.
enum class Size {
  side,
  corner_radius,
  flat_radius,
  across_flats,    ///< even sides only
  across_corners,  ///< even sides only
  flat_to_corner,  ///< odd sides only
  perimeter,
  floor_area  ///< square meters; all others meters
};

struct Polygon {
  int sides = 6;
  double corner_radius_m = 1.0;
};

/// The polygon with `sides` sides whose `size` measures `value`.
/// Throws InputError when the measure does not exist for that number of sides,
/// or when sides or value are out of range.
Polygon polygon_from(Size size, double value, int sides);

double central_angle_rad(const Polygon& polygon);   ///< between neighboring corners, at the center
double interior_angle_rad(const Polygon& polygon);  ///< between two sides
double side_m(const Polygon& polygon);
double flat_radius_m(const Polygon& polygon);
double area_m2(const Polygon& polygon);
double perimeter_m(const Polygon& polygon);

/// Length of the diagonal that spans `skip` sides (skip 1: the side itself).
double diagonal_m(const Polygon& polygon, int skip);

/// The polygon parallel to this one, each side `offset_m` further out (negative: in).
/// Throws InputError when nothing is left of it.
Polygon parallel(const Polygon& polygon, double offset_m);

/// Corner labels clockwise from above: A, B, C … without I and O; after Z: AA, AB …
std::vector<std::string> corner_labels(int sides);

/// Label of the center pin.
inline constexpr const char* kCenterLabel = "O";

}  // namespace stakewright::layout
