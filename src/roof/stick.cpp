#include "stick.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "figures.hpp"

namespace stakewright::roof {
namespace {

constexpr double kRightAngle_rad = std::numbers::pi / 2.0;

/// A saw at its stop is not past it: rounding of an angle.
constexpr double kShade_rad = 1e-9;

/// `taken_m` is what the bevel goes through: the lines on its two sides stand apart by that
/// times the bevel's tangent, square to them.
Setting setting(double square_rad, double miter_rad, double bevel_rad, double taken_m) {
  const bool past_tilt = bevel_rad > kCommonSawTilt_rad + kShade_rad;
  return {std::tan(square_rad), miter_rad, bevel_rad, past_tilt,
          past_tilt ? taken_m * std::tan(bevel_rad) : 0.0};
}

/// Plumb height of the stick's square top edge above a face at half the stick's thickness.
double edge_above_face_m(const Hip<double>& hip, const Face<double>& face, double half_m) {
  return half_m * std::abs(dot(face.normal, hip.right)) / face.normal.z;
}

}  // namespace

double hip_top_m(const Roof& roof) { return 0.5 * roof.spec.hub_m; }

double hub_corner_m(const Roof& roof) {
  return 0.5 * roof.spec.hub_m / std::cos(roof.half_angle_rad);
}

double common_top_m(const Roof& roof, const Surroundings<double>& around) {
  const double to_left = angle_to_hip(around.here, around.left);
  const double to_right = angle_to_hip(around.here, around.right);
  if (!roof.hips_meet) return 0.5 * roof.spec.hub_m / std::cos(0.5 * (to_left + to_right));
  return std::max(short_of_hip_m(roof, to_left), short_of_hip_m(roof, to_right));
}

double short_of_hip_m(const Roof& roof, double angle_rad) {
  return 0.5 * roof.spec.hip_m / std::sin(angle_rad);
}

void finish_rafter(Part& part, const Roof& roof, double line_m, double slope_rad,
                   double level_short_m, double tail_m) {
  part.shortening_m = level_short_m / std::cos(slope_rad);
  part.tail_m = tail_m;
  part.overall_m = line_m - part.shortening_m + tail_m;
  // A plumb cut is longest on the top edge above and on the bottom edge below.
  const bool plumb = roof.spec.tail == Tail::plumb;
  part.stick_m = part.overall_m + (plumb ? roof.spec.rafter_depth_m * std::tan(slope_rad) : 0.0);
  part.heel_m = roof.heel_m;
  part.notch_m = std::max(0.0, roof.spec.rafter_depth_m - roof.heel_m * std::cos(slope_rad));
}

double cheek_point_m(const Roof& roof, double slope_rad, double plan_rad) {
  return 0.5 * roof.spec.rafter_m / (std::tan(plan_rad) * std::cos(slope_rad));
}

double hip_drop_m(const Roof& roof, const Surroundings<double>& around) {
  const double half = 0.5 * roof.spec.hip_m;
  return std::max(edge_above_face_m(around.left, around.before, half),
                  edge_above_face_m(around.left, around.here, half));
}

double fascia_width_m(const Roof& roof, double slope_rad) {
  if (roof.spec.tail == Tail::square) return roof.spec.rafter_depth_m;
  return roof.spec.rafter_depth_m / std::cos(slope_rad);
}

double seat_length_m(const Roof& roof, double slope_rad) {
  const double notch = std::max(0.0, roof.spec.rafter_depth_m - roof.heel_m * std::cos(slope_rad));
  return notch / std::sin(slope_rad);
}

void finish_sheet(Sheet& sheet, const Roof& roof, const BayFigures& figures) {
  const double base = figures.eave_line.value;
  const double height = figures.sheet_height.value;
  sheet.area_m2 = 0.5 * base * height;
  sheet.unborne_m = 0.5 * roof.spec.hip_m / std::cos(figures.backing.right.value);
  const auto across = [base, height](double up) { return base * std::max(0.0, 1.0 - up / height); };
  for (int k = 0; k * roof.spec.course_m < height; ++k) {
    const double up = k * roof.spec.course_m;
    sheet.courses.push_back({up, across(up), across(up + roof.spec.course_m)});
  }
}

Setting plumb_setting(double slope_rad) { return setting(slope_rad, slope_rad, 0.0, 0.0); }

Setting seat_setting(double slope_rad) {
  return setting(slope_rad, kRightAngle_rad - slope_rad, 0.0, 0.0);
}

Setting cheek_setting(double slope_rad, double plan_rad, double taken_m) {
  const double on_top_rad = std::atan(std::tan(plan_rad) * std::cos(slope_rad));
  return setting(on_top_rad, slope_rad, kRightAngle_rad - plan_rad, taken_m);
}

Setting rip_setting(double bevel_rad) { return setting(bevel_rad, 0.0, bevel_rad, 0.0); }

Setting miter_setting(double miter_rad) { return setting(miter_rad, miter_rad, 0.0, 0.0); }

Setting compound_setting(const SawAngles<double>& saw, double square_rad, double taken_m) {
  return setting(square_rad, saw.miter, saw.bevel, taken_m);
}

}  // namespace stakewright::roof
