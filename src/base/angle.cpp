#include "stakewright/base/angle.hpp"

#include <fmt/format.h>

#include <cmath>

#include "scan.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::base {
namespace {

constexpr double kSteepestPitch_deg = 89.0;
constexpr double kTurn_deg = 360.0;
constexpr double kSixty = 60.0;
constexpr double kSeconds_in_degree = 3600.0;
constexpr double kGon_rad = std::numbers::pi / 200.0;

[[noreturn]] void refuse(std::string_view text) {
  throw InputError(fmt::format(
      "read {}; accepted: a pitch above 0 and below {:.0f} degrees, such as 8/12, 33.7deg, 0.667",
      in_quotes(text), kSteepestPitch_deg));
}

[[noreturn]] void refuse_angle(std::string_view text) {
  throw InputError(
      fmt::format("read {}; accepted: an angle above 0 and below 360 degrees, such as 60-00-20, "
                  "60.0056deg, 66.673gon",
                  in_quotes(text)));
}

// Minutes, and seconds after them when there are some, in degrees.
double sixtieths(Scan& scan, std::string_view text) {
  const auto minutes = scan.number();
  if (!minutes || !minutes->whole || minutes->value >= kSixty) refuse_angle(text);
  double degrees = minutes->value / kSixty;
  if (scan.take({"-"})) {
    const auto seconds = scan.number();
    if (!seconds || seconds->value >= kSixty) refuse_angle(text);
    degrees += seconds->value / kSeconds_in_degree;
  }
  return degrees;
}

// Halves away from zero, as lengths; a figure that rounds to nothing has no sign.
double rounded(double value, double per_unit) {
  return std::round(value * per_unit) / per_unit + 0.0;
}

}  // namespace

double pitch_from_text(std::string_view text) {
  Scan scan(text);
  const auto first = scan.number();
  if (!first) refuse(text);
  double pitch = first->value;
  scan.spaces();
  if (scan.take({"/"})) {
    scan.spaces();
    const auto run = scan.number();
    if (!run) refuse(text);
    pitch /= run->value;
  } else if (scan.take({"deg", "\u00b0"})) {
    if (pitch >= kSteepestPitch_deg) refuse(text);  // past 90 the tangent comes round again
    pitch = std::tan(pitch * kDegree_rad);
  }
  scan.spaces();
  const bool in_range = pitch > 0.0 && pitch < std::tan(kSteepestPitch_deg * kDegree_rad);
  if (!scan.at_end() || !in_range) refuse(text);
  return pitch;
}

double angle_rad_from_text(std::string_view text) {
  Scan scan(text);
  const auto first = scan.number();
  if (!first) refuse_angle(text);
  double unit_rad = kDegree_rad;
  double angle = first->value;
  if (first->whole && scan.take({"-"})) {
    angle += sixtieths(scan, text);
  } else {
    scan.spaces();
    if (scan.take({"gon"})) {
      unit_rad = kGon_rad;
    } else {
      scan.take({"deg", "\u00b0"});
    }
  }
  scan.spaces();
  const double angle_rad = angle * unit_rad;
  const bool in_range = angle_rad > 0.0 && angle_rad < kTurn_deg * kDegree_rad;
  if (!scan.at_end() || !in_range) refuse_angle(text);
  return angle_rad;
}

std::string dms_from_angle(double angle_rad) {
  if (!std::isfinite(angle_rad)) return "-";
  const auto seconds =
      static_cast<long long>(std::llround(std::abs(angle_rad) / kDegree_rad * kSeconds_in_degree));
  const long long minutes = seconds / 60;
  return fmt::format("{}{}-{:02}-{:02}", angle_rad < 0.0 && seconds > 0 ? "-" : "", minutes / 60,
                     minutes % 60, seconds % 60);
}

std::string text_from_angle(double angle_rad) {
  if (!std::isfinite(angle_rad)) return "-";
  return fmt::format("{:.2f}\u00b0", rounded(angle_rad / kDegree_rad, 100.0));
}

std::string text_from_bearing(double bearing_rad) {
  if (!std::isfinite(bearing_rad)) return "-";
  double turned = std::fmod(rounded(bearing_rad / kDegree_rad, 10.0), kTurn_deg);
  if (turned < 0.0) turned += kTurn_deg;
  return fmt::format("{:.1f}\u00b0", turned + 0.0);
}

}  // namespace stakewright::base
