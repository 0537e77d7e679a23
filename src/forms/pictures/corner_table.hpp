// Every corner with how it is off and its verdict, beneath the drawing of what was found.
#pragma once

#include "stakewright/check/check.hpp"
#include "stakewright/drawing/page.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/wording/wording.hpp"

namespace stakewright::forms {

using wording::Wording;

/// Up to here each corner has a line of words; above, signed figures in columns.
inline constexpr std::size_t kMostCornersInWords = 12;

double corner_table_height_pt(std::size_t corners);

/// How wide the table is: part of the page in words, the whole of it in figures.
double corner_table_width_pt(std::size_t corners, double page_width_pt);

void draw_corner_table(drawing::Page& page, const drawing::Box& box,
                       const check::Findings& findings, base::Units units, const Wording& wording);

}  // namespace stakewright::forms
