// Lengths and areas as a crew writes them, and as the tool writes them back.
//
// Feet-inches-fractions and metric are equals.  1 in = 0.0254 m exactly.
#pragma once

#include <string>
#include <string_view>

namespace stakewright::base {

/// What bare numbers mean and what output is written in.
enum class Units { feet_inches, millimeters, meters };

/// `feet-inches`, `mm` or `m`, as options take it.
std::string word_of(Units units);

/// The units of that word.  Throws InputError, naming what was read and what is accepted.
Units units_from_word(std::string_view word);

/// Length in meters from text: `16ft`, `12' 4-5/16"`, `12-4-5/16` (feet-inches-
/// fraction), `148 5/16in`, `3.766m`, `3766mm`, `376.6cm`, `12.36ft`.  A leading
/// minus is taken.  A bare number is in `bare` (feet-inches: a bare number is
/// feet, as in `12.36`; `12-4-5/16` needs no unit).
///
/// Throws InputError, naming what was read and what is accepted, for anything
/// else: 12 or more inches after feet, a fraction whose bottom is not a power of
/// two up to 64 or whose top is not less than its bottom, trailing text, and
/// magnitudes above `kLongestLength_m`.
double length_m_from_text(std::string_view text, Units bare);

/// Area in square meters from text: `200sqft`, `200 ft2`, `18.6m2`, `18.6 sqm`.
/// A bare number is in square feet, or square meters for both metric units.
/// Throws InputError as `length_m_from_text`.
double area_m2_from_text(std::string_view text, Units bare);

/// Text for a length, rounded once.  feet_inches: feet and inches to the
/// nearest 1/`per_inch` (`13' 10-1/4"`, `10-1/4"`, `-3/4"`, `0"`); millimeters
/// to 1 mm (`3766 mm`); meters to 1 mm (`3.766 m`).
///
/// `per_inch` is a power of two from 1 to 64.  Reading the text back gives the
/// rounded length exactly to 1e-12 m.  Not a finite number: `-`.
std::string text_from_length(double length_m, Units units, int per_inch = 16);

/// Small lengths (errors, uncertainties), one step finer: inches to 1/32
/// (`5/32"`) or tenths of a millimeter (`3.9 mm`).
std::string text_from_small_length(double length_m, Units units);

/// Area: `207.8 sq ft` or `19.31 m²`.
std::string text_from_area(double area_m2, Units units);

/// No length in a job may be larger, in meters.  A shelter is tens of meters;
/// past this a figure is a slip of the pen and sums lose millimeters.
inline constexpr double kLongestLength_m = 10000.0;

}  // namespace stakewright::base
