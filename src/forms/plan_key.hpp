// The column beside the plan: which way is forward, the scale, sizes, and what each mark means.
#pragma once

#include "plan_drawing.hpp"
#include "stakewright/drawing/page.hpp"
#include "stakewright/forms/field_form.hpp"

namespace stakewright::forms {

void draw_key(drawing::Page& page, const drawing::Box& box, const job::Job& job,
              const results::LayoutResult& layout, const Drawn& drawn, base::Units units,
              const Wording& wording);

}  // namespace stakewright::forms
