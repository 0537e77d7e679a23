// The other figures of a job, as a crew or a maker writes them: a number and, where it is not
// the first unit named here, its unit.
#pragma once

#include <string>
#include <string_view>

#include "stakewright/base/length.hpp"

namespace stakewright::base {

enum class Quantity {
  temperature,  ///< `35`, `35C`, `95F`: degrees Celsius
  pull,         ///< `50`, `50N`, `12lbf`: newtons
  section,      ///< `2.6`, `2.6mm2`, `0.0075in2`: square meters out, square millimeters when bare
  modulus,      ///< `200`, `200GPa`, `29e6psi`: pascals out, gigapascals when bare
  weight,       ///< `0.17`, `0.17N/m`, `0.028lbf/ft`: newtons per meter
  volume,       ///< `0.6 cu ft`, `17L`, `0.017m3`: cubic meters; never bare
  expansion     ///< `11.5e-6`, `11.5e-6/C`, `6.45e-6/F`: per degree Celsius
};

/// The figure in SI.  A leading minus and a power of ten (`6.45e-6`) are taken.
/// Throws InputError, naming what was read and what is accepted.
double quantity_from_text(std::string_view text, Quantity quantity);

/// Volume of concrete: `2.71 cu yd` or `2.07 m³`.  Not a finite number: `-`.
std::string text_from_volume(double volume_m3, Units units);

}  // namespace stakewright::base
