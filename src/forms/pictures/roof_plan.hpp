// The roof seen from above, to scale.
#pragma once

#include "plan_view.hpp"
#include "roof_lines.hpp"
#include "stakewright/drawing/page.hpp"

namespace stakewright::forms {

/// What a drawing shows, for the key beside it.
struct RoofDrawn {
  Scale scale;
  bool jacks = false;
  bool jacks_numbered = false;
  bool own = false;      ///< some rafter needs its own cut
  bool thinned = false;  ///< only some corners are lettered
};

RoofDrawn draw_roof_plan(drawing::Page& page, const drawing::Box& box, const job::Job& job,
                         const roof::Carry& carry, const RoofLines& lines, base::Units units);

drawing::Stroke rafter_stroke(roof::PartKind kind);
drawing::Stroke plate_stroke();
drawing::Stroke eave_stroke();

/// A white ring on a rafter that needs its own cut.
void draw_own_mark(drawing::Page& page, drawing::At at);

}  // namespace stakewright::forms
