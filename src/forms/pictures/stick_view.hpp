// Draws a rafter from its side and from above, its middle left out when it is long.
#pragma once

#include <string>

#include "scale.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/drawing/page.hpp"
#include "stakewright/wording/wording.hpp"
#include "stick_shape.hpp"

namespace stakewright::forms {

using wording::Wording;

/// Numbers by which the list of cuts names the cuts on the drawing; empty: that cut is not there.
struct CutNumbers {
  std::string plumb;
  std::string seat;
  std::string cheek;
  std::string tail;
};

struct StickDrawn {
  Scale scale;
  bool broken = false;  ///< the middle is left out
  double bottom_pt = 0.0;
};

/// Side view with dimensions, and the top edge below it, across the box from its top down.
StickDrawn draw_stick(drawing::Page& page, const drawing::Box& box, const StickShape& stick,
                      const CutNumbers& numbers, base::Units units, const Wording& wording);

}  // namespace stakewright::forms
