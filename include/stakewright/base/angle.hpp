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

/// Angle in radians from text: `60-00-20` (degrees-minutes-seconds), `60-00`, `60.0056` or
/// `60.0056deg` (decimal degrees), `66.673gon`.  Minutes and seconds are fewer than 60, seconds may
/// have decimals.  Throws InputError unless it lies above 0 and below a full turn.
double angle_rad_from_text(std::string_view text);

/// Degrees, minutes and seconds to the nearest second: `60-00-20`; a minus in front.
std::string dms_from_angle(double angle_rad);

/// Degrees to two decimals: `26.57°`.
std::string text_from_angle(double angle_rad);

/// Compass-like words for a bearing are not used on site; bearings are degrees
/// clockwise from forward, 0 to 360: `184.3°`.
std::string text_from_bearing(double bearing_rad);

}  // namespace stakewright::base
