// Figures as words: directions instead of signs.
#pragma once

#include <string>

#include "stakewright/base/length.hpp"

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

/// `A–C`.
std::string tape_name(const std::string& from, const std::string& to);

/// `1 corner`, `3 corners`.
std::string counted(std::size_t count, const std::string& one, const std::string& many);

}  // namespace stakewright::cli
