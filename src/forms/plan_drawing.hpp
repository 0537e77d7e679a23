// The plan to scale with its labels, and beside it the key: which way is forward, the scale, sizes,
// and what each mark means.
#pragma once

#include "stakewright/drawing/page.hpp"
#include "stakewright/forms/field_form.hpp"

namespace stakewright::forms {

/// Draws the plan and its key side by side into a box, at the largest usual scale that holds the
/// stakes, lines and strings, and pins and outlines if the stakes stay legible.
void draw_plan(drawing::Page& page, const drawing::Box& box, const job::Job& job,
               const results::LayoutResult& layout, const Voice& voice);

}  // namespace stakewright::forms
