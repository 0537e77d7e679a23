// The roof seen from above, to scale.
#pragma once

#include "scale.hpp"
#include "stakewright/drawing/page.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/roof/roof.hpp"
#include "stakewright/wording/voice.hpp"

namespace stakewright::forms {

using wording::Voice;

/// What a drawing shows, for the key beside it.
struct RoofDrawn {
  Scale scale;
  bool jacks = false;
  bool jacks_numbered = false;
  bool own = false;  ///< some rafter needs its own cut
};

/// `found`: the corners that the carry was made over; without it, or where the carry has no found
/// figures, the roof as planned.
RoofDrawn draw_roof_plan(drawing::Page& page, const drawing::Box& box, const job::Job& job,
                         const roof::Carry& carry, const roof::FoundCorners* found,
                         const Voice& voice);

/// Whether any part has a found figure.
bool has_found(const roof::Carry& carry);

drawing::Stroke rafter_stroke(roof::PartKind kind);
drawing::Stroke plate_stroke();
drawing::Stroke eave_stroke();

/// A white ring on a rafter that needs its own cut.
void draw_own_mark(drawing::Page& page, drawing::At at);

}  // namespace stakewright::forms
