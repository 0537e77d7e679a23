// How each thing on the drawing of what was found is marked, there and in its key alike.
#pragma once

#include <string>
#include <vector>

#include "stakewright/drawing/page.hpp"
#include "stakewright/placement/placement.hpp"

namespace stakewright::forms {

inline constexpr double kFoundReach_pt = 6.0;
inline constexpr double kSuspectRadius_pt = 7.5;
/// Strokes across a suspect tape reach so far to either side of it.
inline constexpr double kHatchReach_pt = 3.0;

drawing::Stroke planned_stroke();
drawing::Stroke found_stroke();
drawing::Stroke tolerance_stroke();
drawing::Stroke ellipse_stroke();
drawing::Stroke left_out_stroke();

/// Points round an ellipse, its long axis along a bearing clockwise from up the page.
std::vector<drawing::At> ellipse_points(drawing::At center, double major_pt, double minor_pt,
                                        double bearing_rad);

/// A small cross where a stake is wanted.
void draw_wanted(drawing::Page& page, drawing::At at);

/// In: a black disc.  Out: a black square in a white ring.  Cannot tell: a white disc.
void draw_found(drawing::Page& page, drawing::At at, placement::Verdict verdict);

/// An open circle of dashes: the readings do not fix this corner.
void draw_not_fixed(drawing::Page& page, drawing::At at);

/// A heavy arrow; a heavy line where it is too short for a head.
void draw_move(drawing::Page& page, drawing::At from, drawing::At to);

/// A line with short strokes across it, as a suspect tape is marked.
void draw_hatched(drawing::Page& page, drawing::At from, drawing::At to);

/// A black disc with a white number, as a suspect is marked.
void draw_number(drawing::Page& page, drawing::At middle, const std::string& number);

}  // namespace stakewright::forms
