// Figures as words: directions instead of signs, chances in whole percent,
// names in a row.
#pragma once

#include <string>
#include <vector>

#include "stakewright/adjustment/network.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/placement/placement.hpp"

namespace stakewright::cli {

/// A signed length's two directions.
struct Directions {
  const char* positive;
  const char* negative;
};

inline constexpr Directions kOutward{"outward", "inward"};
inline constexpr Directions kSideways{"clockwise", "counterclockwise"};
inline constexpr Directions kLonger{"longer", "shorter"};

/// To which step a length is rounded: the tape's own, or one finer for errors.
enum class Step { tape, fine };

/// `7/8" outward`, `3.2 mm counterclockwise`; without a direction where it rounds to nothing.
std::string directed(double length_m, Directions directions, base::Units units, Step step);

/// Both ways a corner is off, leaving out what rounds to nothing:
/// `7/8" outward and 1/8" clockwise`; `in place` when both do.
std::string off_words(double outward_m, double sideways_m, base::Units units);

/// Whole percent: `97 %`; `over 99 %` and `under 1 %` where rounding would claim certainty.
std::string percent(double chance);

/// The same for an angle, in degrees-minutes-seconds: `0-01-20 large`.
std::string directed_angle(double angle_rad, Directions directions);

/// `A–C`; of an angle turned at O `A–O–C`.
std::string reading_name(const adjustment::Network& network, std::size_t reading);

/// `A–C`.
std::string tape_name(const std::string& from, const std::string& to);

/// `1 corner`, `3 corners`.
std::string counted(std::size_t count, const std::string& one, const std::string& many);

/// `in`, `OUT`, `cannot tell`.
const char* verdict_word(placement::Verdict verdict);

}  // namespace stakewright::cli
