// Angles and roof pitches as the trade writes them.
#pragma once

#include <numbers>
#include <string>
#include <string_view>

namespace stakewright::base {

inline constexpr double kDegree_rad = std::numbers::pi / 180.0;

/// Pitch as rise over run, from `8/12`, `33.7deg` or `0.667`.
/// Throws InputError unless it lies above 0 and below 89 degrees.
double pitch_from_text(std::string_view text);

/// Degrees to two decimals: `26.57°`.
std::string text_from_angle(double angle_rad);

/// Compass-like words for a bearing are not used on site; bearings are degrees
/// clockwise from forward, 0 to 360: `184.3°`.
std::string text_from_bearing(double bearing_rad);

}  // namespace stakewright::base
