// Names of roof parts and of what a framing square shows, in the language of the drawing.
#pragma once

#include <string>

#include "stakewright/base/length.hpp"
#include "stakewright/roof/roof.hpp"
#include "stakewright/wording/wording.hpp"

namespace stakewright::forms {

using wording::Wording;

/// "hip", "common", ...
std::string kind_words(roof::PartKind kind, const Wording& wording);

/// What to hold on the two arms of a framing square for the tangent of an angle: 12 in or 250 mm
/// on the longer one.
struct SquareHold {
  std::string angle_arm;  ///< opposite the angle: the rise of a plumb cut
  std::string other_arm;  ///< beside it: the run
};

SquareHold square_hold(double figure, base::Units units);

}  // namespace stakewright::forms
