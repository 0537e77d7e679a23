#include "spec.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "figures.hpp"
#include "stakewright/base/angle.hpp"
#include "stakewright/base/error.hpp"

namespace stakewright::roof {
namespace {

/// Steeper is no roof but a wall, and its rafters have no end.
constexpr double kSteepest_rad = 89.0 * base::kDegree_rad;

/// A notch past this share of the depth is a question for the designer.  Common
/// practice, no source.
constexpr double kDeepestNotch = 1.0 / 3.0;

/// The bearing a seat is given when nothing is said: a 4 in nominal beam.
constexpr double kUsualSeat_m = 0.0889;

void require_above_zero(const char* key, double value) {
  if (!(std::isfinite(value) && value > 0.0))
    throw base::InputError(
        fmt::format("{} {:g} m; accepted is a finite length above 0", key, value));
}

void require_zero_or_more(const char* key, double value) {
  if (!(std::isfinite(value) && value >= 0.0))
    throw base::InputError(
        fmt::format("{} {:g} m; accepted is a finite length, 0 or more", key, value));
}

void require_pitch(double pitch) {
  if (!(pitch > 0.0 && pitch < std::tan(kSteepest_rad)))
    throw base::InputError(
        fmt::format("pitch {:g}; accepted is a rise over run above 0 and below 89 degrees", pitch));
}

void require_sizes(const Spec& spec) {
  require_pitch(spec.pitch);
  require_zero_or_more("overhang", spec.overhang_m);
  require_above_zero("rafter", spec.rafter_m);
  require_above_zero("rafter_depth", spec.rafter_depth_m);
  require_above_zero("hip", spec.hip_m);
  require_above_zero("spacing", spec.spacing_m);
  require_zero_or_more("hub", spec.hub_m);
  require_zero_or_more("fascia", spec.fascia_m);
  require_zero_or_more("seat", spec.seat_m);
  require_zero_or_more("shortest_jack", spec.shortest_jack_m);
  require_above_zero("beam", spec.beam_m);
  require_above_zero("post", spec.post_m);
  require_zero_or_more("post_height", spec.post_height_m);
  require_above_zero("course", spec.course_m);
}

void require_room(const layout::Polygon& plate, const Spec& spec) {
  const double flat_radius = layout::flat_radius_m(plate);
  if (spec.rafter_m >= spec.spacing_m)
    throw base::InputError(
        fmt::format("rafter {:g} m thick at a spacing of {:g} m; accepted is a "
                    "rafter thinner than its spacing",
                    spec.rafter_m, spec.spacing_m));
  if (spec.hub_m >= 2.0 * flat_radius)
    throw base::InputError(
        fmt::format("hub {:g} m across flats; accepted is less than the {:g} m between the plates",
                    spec.hub_m, 2.0 * flat_radius));
  if (0.5 * spec.hip_m >= flat_radius * std::sin(std::numbers::pi / plate.sides))
    throw base::InputError(fmt::format(
        "hip {:g} m thick; accepted on {} sides is less than {:g} m, or the hips fill the roof",
        spec.hip_m, plate.sides, 2.0 * flat_radius * std::sin(std::numbers::pi / plate.sides)));
}

/// A block shorter than this splits when it is nailed.  Common practice, no source.
constexpr double kShortestBlock_m = 0.05;

/// More is a slip of the pen: 200 jacks at a hand's width span 20 m.
constexpr int kMostJacks = 200;

double seat_of(const Spec& spec) {
  const double slope_rad = std::atan(spec.pitch);
  if (spec.seat_m <= 0.0)
    return std::min(kUsualSeat_m, kDeepestNotch * spec.rafter_depth_m / std::sin(slope_rad));
  const double whole = spec.rafter_depth_m / std::sin(slope_rad);
  if (spec.seat_m >= whole)
    throw base::InputError(
        fmt::format("seat {:g} m; accepted is less than {:g} m, where it cuts the rafter through",
                    spec.seat_m, whole));
  return spec.seat_m;
}

/// Jacks on each side of a common: those that reach their hip at the stated length or more.
int jacks_beside_a_common(const Spec& spec, double flat_radius_m, double half_angle_rad) {
  const double half_side = flat_radius_m * std::tan(half_angle_rad);
  const double along_slope = std::hypot(1.0, spec.pitch);
  const double short_of_hip = 0.5 * spec.hip_m / std::sin(half_angle_rad);
  int count = 0;
  const auto cut_length_m = [&](int k) {
    return along_slope * (flat_radius_m * (1.0 - k * spec.spacing_m / half_side) - short_of_hip);
  };
  while (cut_length_m(count + 1) > 0.0 && cut_length_m(count + 1) >= spec.shortest_jack_m)
    if (++count > kMostJacks)
      throw base::InputError(
          fmt::format("spacing {:g} m; accepted is one that puts no more than {} jacks between a "
                      "common and its hip",
                      spec.spacing_m, kMostJacks));
  return count;
}

}  // namespace

Roof roof_over(const layout::Polygon& plate, const Spec& spec) {
  require_sizes(spec);
  require_room(plate, spec);
  const double half_angle_rad = std::numbers::pi / plate.sides;
  Roof roof;
  roof.spec = spec;
  roof.flat_radius_m = layout::flat_radius_m(plate);
  roof.height_m = spec.pitch * roof.flat_radius_m;
  roof.heel_m = spec.rafter_depth_m / std::cos(std::atan(spec.pitch)) - seat_of(spec) * spec.pitch;
  roof.jacks = jacks_beside_a_common(spec, roof.flat_radius_m, half_angle_rad);
  roof.hips_meet = spec.hub_m * std::tan(half_angle_rad) < spec.hip_m;
  const double last_to_corner_m =
      roof.flat_radius_m * std::tan(half_angle_rad) - roof.jacks * spec.spacing_m;
  roof.end_blocks = end_block(spec, last_to_corner_m, half_angle_rad) > kShortestBlock_m;
  return roof;
}

}  // namespace stakewright::roof
