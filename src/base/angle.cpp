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

[[noreturn]] void refuse(std::string_view text) {
  throw InputError(fmt::format(
      "read {}; accepted: a pitch above 0 and below {:.0f} degrees, such as 8/12, 33.7deg, 0.667",
      in_quotes(text), kSteepestPitch_deg));
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
