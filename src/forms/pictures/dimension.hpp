// Dimension lines: two ticks, a line between them, a length in a gap of it.
#pragma once

#include <string>

#include "pen.hpp"
#include "stakewright/drawing/page.hpp"

namespace stakewright::forms {

/// From one row of dimensions to the next.
inline constexpr double kDimensionRow_pt = 17.0;

/// Upright lines that the words of a dimension do not lie over.
struct Uprights {
  double between_pt = 0.0;  ///< one between the ticks: the words stand left of it; 0: none
  double beyond_pt = 0.0;   ///< the last one on the right: words outside go past it where they must
};

/// A level dimension at height `y_pt`, its words in a gap of the line where they fit between the
/// ticks, else to the right of them.
void draw_level_dimension(drawing::Page& page, double left_pt, double right_pt, double y_pt,
                          const std::string& words, const Uprights& uprights = {});

/// Thin upright line from a point that is measured to its dimension.
void draw_extension(drawing::Page& page, double x_pt, double from_pt, double to_pt);

}  // namespace stakewright::forms
