#include "stakewright/roof/spec.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string>
#include <utility>

#include "exact.hpp"
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

/// More is a slip of the pen: 200 jacks at a hand's width span 20 m.
constexpr int kMostJacks = 200;

/// More courses up one face than this are a slip of the pen too.
constexpr double kMostCourses = 200.0;

struct LengthKey {
  const char* key;
  double Spec::*length;
  bool zero_too;
};

constexpr std::array<LengthKey, 13> kLengths = {{{"overhang", &Spec::overhang_m, true},
                                                 {"rafter", &Spec::rafter_m, false},
                                                 {"rafter_depth", &Spec::rafter_depth_m, false},
                                                 {"hip", &Spec::hip_m, false},
                                                 {"spacing", &Spec::spacing_m, false},
                                                 {"hub", &Spec::hub_m, true},
                                                 {"fascia", &Spec::fascia_m, true},
                                                 {"seat", &Spec::seat_m, true},
                                                 {"shortest_jack", &Spec::shortest_jack_m, true},
                                                 {"beam", &Spec::beam_m, false},
                                                 {"post", &Spec::post_m, false},
                                                 {"post_height", &Spec::post_height_m, true},
                                                 {"base_play", &Spec::base_play_m, true}}};

using Fault = std::optional<SpecFault>;

/// Looks for faults, and words them in the units asked for.
class Look {
 public:
  Look(const Spec& spec, const layout::Polygon& plate, base::Units units)
      : spec_(spec),
        units_(units),
        half_angle_rad_(std::numbers::pi / plate.sides),
        flat_radius_m_(layout::flat_radius_m(plate)) {}

  [[nodiscard]] Fault first() const {
    for (const auto& look : {&Look::pitch, &Look::lengths, &Look::course, &Look::rafter, &Look::hub,
                             &Look::hip, &Look::seat, &Look::spacing})
      if (Fault fault = (this->*look)()) return fault;
    return {};
  }

 private:
  [[nodiscard]] std::string text(double length_m) const {
    return base::text_from_small_length(length_m, units_);
  }

  [[nodiscard]] Fault refused(const char* key, double length_m, std::string accepted) const {
    return SpecFault{key, text(length_m), std::move(accepted)};
  }

  [[nodiscard]] Fault pitch() const {
    if (spec_.pitch > 0.0 && spec_.pitch < std::tan(kSteepest_rad)) return {};
    return SpecFault{"pitch", fmt::format("{:g}", spec_.pitch),
                     "a rise over run above 0 and below 89 degrees"};
  }

  [[nodiscard]] Fault lengths() const {
    for (const auto& [key, length, zero_too] : kLengths) {
      const double value = spec_.*length;
      if (std::isfinite(value) && (value > 0.0 || (zero_too && value == 0.0))) continue;
      return refused(key, value, zero_too ? "a length of 0 or more" : "a length above 0");
    }
    return {};
  }

  [[nodiscard]] Fault course() const {
    const double face_m = std::hypot(1.0, spec_.pitch) * (flat_radius_m_ + spec_.overhang_m);
    const double least_m = face_m / kMostCourses;
    if (std::isfinite(spec_.course_m) && spec_.course_m > least_m) return {};
    return refused(
        "course", spec_.course_m,
        fmt::format("a panel wider than {}, so that no more than {} courses cover a face",
                    text(least_m), kMostCourses));
  }

  [[nodiscard]] Fault rafter() const {
    if (spec_.rafter_m < spec_.spacing_m) return {};
    return refused("rafter", spec_.rafter_m,
                   fmt::format("a rafter thinner than its spacing, {}", text(spec_.spacing_m)));
  }

  /// The commons end at the hub's corners, and must not end outside the plate.
  [[nodiscard]] Fault hub() const {
    const double most_m = 2.0 * flat_radius_m_ * std::cos(half_angle_rad_);
    if (spec_.hub_m < most_m) return {};
    return refused("hub", spec_.hub_m,
                   fmt::format("less than {}, where its corners reach the plates", text(most_m)));
  }

  [[nodiscard]] Fault hip() const {
    const double most_m = 2.0 * flat_radius_m_ * std::sin(half_angle_rad_);
    if (spec_.hip_m < most_m) return {};
    return refused("hip", spec_.hip_m,
                   fmt::format("less than {}, where the hips fill the roof", text(most_m)));
  }

  [[nodiscard]] Fault seat() const {
    const double whole_m = spec_.rafter_depth_m / std::sin(std::atan(spec_.pitch));
    if (spec_.seat_m < whole_m) return {};
    return refused("seat", spec_.seat_m,
                   fmt::format("less than {}, where it cuts the rafter through", text(whole_m)));
  }

  [[nodiscard]] Fault spacing() const {
    const double half_side_m = flat_radius_m_ * std::tan(half_angle_rad_);
    if (half_side_m / spec_.spacing_m < kMostJacks + 1) return {};
    return refused("spacing", spec_.spacing_m,
                   fmt::format("{} or more, so that no more than {} jacks stand beside a common",
                               text(half_side_m / kMostJacks), kMostJacks));
  }

  const Spec& spec_;
  base::Units units_;
  double half_angle_rad_;
  double flat_radius_m_;
};

/// A block shorter than this splits when it is nailed.  Common practice, no source.
constexpr double kShortestBlock_m = 0.05;

double seat_of(const Spec& spec) {
  if (spec.seat_m > 0.0) return spec.seat_m;
  const double slope_rad = std::atan(spec.pitch);
  return std::min(kUsualSeat_m, kDeepestNotch * spec.rafter_depth_m / std::sin(slope_rad));
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
  while (cut_length_m(count + 1) > 0.0 && cut_length_m(count + 1) >= spec.shortest_jack_m) ++count;
  return count;
}

}  // namespace

std::optional<SpecFault> fault_of(const Spec& spec, const layout::Polygon& plate,
                                  base::Units units) {
  return Look(spec, plate, units).first();
}

Roof roof_over(const layout::Polygon& plate, const Spec& spec) {
  if (const auto fault = fault_of(spec, plate, base::Units::meters))
    throw base::InputError(
        fmt::format("{}: read {}; accepted: {}", fault->key, fault->read, fault->accepted));
  const double half_angle_rad = std::numbers::pi / plate.sides;
  Roof roof;
  roof.spec = spec;
  roof.flat_radius_m = layout::flat_radius_m(plate);
  roof.half_angle_rad = half_angle_rad;
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
