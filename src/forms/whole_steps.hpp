// Limits rounded to what is written in the blanks, to the side on which good work passes.
#pragma once

#include <string>

#include "stakewright/base/length.hpp"

namespace stakewright::forms {

/// To 1/16 in or 1 mm.  A length that is a whole step but for the last digits stays one.
std::string rounded_up(double length_m, base::Units units);
std::string rounded_down(double length_m, base::Units units);

}  // namespace stakewright::forms
