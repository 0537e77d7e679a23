#include "stakewright/layout/polygon.hpp"

#include <fmt/format.h>

#include <cassert>
#include <cmath>
#include <numbers>
#include <string_view>

#include "stakewright/base/error.hpp"
#include "stakewright/base/length.hpp"

namespace stakewright::layout {
namespace {

constexpr double kPi = std::numbers::pi;

/// Corners nearer together than this are one corner to any tape.
constexpr double kShortestSide_m = 0.001;

double half_angle_rad(int sides) { return kPi / sides; }

void require_sides(int sides) {
  if (sides < kFewestSides || sides > kMostSides)
    throw base::InputError(
        fmt::format("{} sides; accepted are {} to {} sides", sides, kFewestSides, kMostSides));
}

void require_parity(Size size, int sides) {
  const bool even = sides % 2 == 0;
  if (size == Size::across_flats && !even)
    throw base::InputError(fmt::format(
        "across_flats with {} sides: a flat faces a flat only on an even number of sides; "
        "give flat_to_corner instead",
        sides));
  if (size == Size::across_corners && !even)
    throw base::InputError(fmt::format(
        "across_corners with {} sides: a corner faces a corner only on an even number of sides; "
        "give flat_to_corner instead",
        sides));
  if (size == Size::flat_to_corner && even)
    throw base::InputError(fmt::format(
        "flat_to_corner with {} sides: a flat faces a corner only on an odd number of sides; "
        "give across_flats or across_corners instead",
        sides));
}

void require_value(double value) {
  if (!std::isfinite(value) || value <= 0.0)
    throw base::InputError(
        fmt::format("size {:g}; accepted is a finite length or area above 0", value));
}

/// Corner radius over the measure, which is a length.
double radius_per_length(Size size, int sides) {
  const double half = half_angle_rad(sides);
  switch (size) {
    case Size::side:
      return 0.5 / std::sin(half);
    case Size::corner_radius:
      return 1.0;
    case Size::flat_radius:
      return 1.0 / std::cos(half);
    case Size::across_flats:
      return 0.5 / std::cos(half);
    case Size::across_corners:
      return 0.5;
    case Size::flat_to_corner:
      return 1.0 / (1.0 + std::cos(half));
    case Size::perimeter:
      return 0.5 / (sides * std::sin(half));
    case Size::floor_area:
      break;
  }
  assert(false && "an area is not a length");
  return 0.0;
}

double corner_radius_of(Size size, double value, int sides) {
  if (size == Size::floor_area)
    return std::sqrt(2.0 * value / (sides * std::sin(2.0 * half_angle_rad(sides))));
  return value * radius_per_length(size, sides);
}

}  // namespace

Polygon polygon_from(Size size, double value, int sides) {
  require_sides(sides);
  require_parity(size, sides);
  require_value(value);
  const Polygon polygon{sides, corner_radius_of(size, value, sides)};
  if (side_m(polygon) < kShortestSide_m)
    throw base::InputError(fmt::format("a side of {:g} m; accepted are sides from {:g} m",
                                       side_m(polygon), kShortestSide_m));
  if (!(polygon.corner_radius_m <= base::kLongestLength_m))
    throw base::InputError(fmt::format("a corner radius of {:g} m; accepted is up to {:g} m",
                                       polygon.corner_radius_m, base::kLongestLength_m));
  return polygon;
}

double central_angle_rad(const Polygon& polygon) { return 2.0 * kPi / polygon.sides; }

double interior_angle_rad(const Polygon& polygon) { return kPi - central_angle_rad(polygon); }

double side_m(const Polygon& polygon) { return diagonal_m(polygon, 1); }

double flat_radius_m(const Polygon& polygon) {
  return polygon.corner_radius_m * std::cos(half_angle_rad(polygon.sides));
}

double area_m2(const Polygon& polygon) {
  const double R = polygon.corner_radius_m;
  return 0.5 * polygon.sides * R * R * std::sin(central_angle_rad(polygon));
}

double perimeter_m(const Polygon& polygon) { return polygon.sides * side_m(polygon); }

double diagonal_m(const Polygon& polygon, int skip) {
  assert(skip >= 0 && skip <= polygon.sides);
  return 2.0 * polygon.corner_radius_m * std::sin(skip * half_angle_rad(polygon.sides));
}

Polygon parallel(const Polygon& polygon, double offset_m) {
  const double flat_radius = flat_radius_m(polygon) + offset_m;
  const Polygon result{polygon.sides, flat_radius / std::cos(half_angle_rad(polygon.sides))};
  if (!(side_m(result) >= kShortestSide_m))
    throw base::InputError(fmt::format(
        "an offset of {:g} m leaves nothing; the flat radius is {:g} m, so an inward offset must "
        "be less than that",
        offset_m, flat_radius_m(polygon)));
  return result;
}

std::vector<std::string> corner_labels(int sides) {
  constexpr std::string_view kLetters = "ABCDEFGHJKLMNPQRSTUVWXYZ";  // no I, no O
  std::vector<std::string> labels;
  for (std::size_t i = 0; i < static_cast<std::size_t>(sides); ++i) {
    std::string label(1, kLetters[i % kLetters.size()]);
    if (i >= kLetters.size()) label.insert(0, 1, kLetters[i / kLetters.size() - 1]);
    labels.push_back(label);
  }
  return labels;
}

}  // namespace stakewright::layout
