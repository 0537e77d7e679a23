// The plan to scale: stakes, lines, strings, pins, outlines, and their labels.
#pragma once

#include <cstddef>
#include <vector>

#include "scale.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/drawing/page.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/layout.hpp"

namespace stakewright::forms {

/// With more sides, strings would hide the plan; the sheet leaves them to the command's table.
inline constexpr int kMostSidesWithStrings = 12;

/// What a drawing shows, for the key beside it.
struct Drawn {
  Scale scale;
  bool strings = false;
  bool baseline = false;
  bool points_at_pins = false;        ///< some pins lie beyond the drawing
  std::vector<std::size_t> outlines;  ///< places in the plan's `keep_clear`
};

/// Draws the plan into a box at the largest usual scale that holds the stakes, lines and strings,
/// and pins and outlines if the stakes stay legible.
Drawn draw_plan(drawing::Page& page, const drawing::Box& box, const job::Job& job,
                const results::LayoutResult& layout, base::Units units);

}  // namespace stakewright::forms
