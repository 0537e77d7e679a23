// Values of the roof that reports and pictures tell alike.
#pragma once

#include "stakewright/base/fact.hpp"
#include "stakewright/base/length.hpp"

namespace stakewright::told {

/// What to hold on the two arms of a framing square for the tangent of an angle: 12 in or 250 mm
/// on the longer one.
struct SquareHold {
  base::Value angle_arm;  ///< opposite the angle: the rise of a plumb cut
  base::Value other_arm;  ///< beside it: the run
};

SquareHold square_hold(double figure, base::Units units);

}  // namespace stakewright::told
