// A thumbnail of one swing: the polygon, the two tapes, the stake they set.
#pragma once

#include <string>

#include "stakewright/drawing/page.hpp"
#include "stakewright/layout/plan.hpp"
#include "stakewright/layout/swings.hpp"

namespace stakewright::forms {

/// Drawn as large as the box allows, forward up; it shows on which hand the stake lies.
void draw_swing(drawing::Page& page, const drawing::Box& box, const layout::Plan& plan,
                const layout::Swing& swing);

}  // namespace stakewright::forms
