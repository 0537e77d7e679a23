// How large text comes out, known before it is placed.
//
// Metrics are unhinted, so a page is the same on paper, on a screen and in a
// test.  Right to about 1/100 pt: Pango counts in 1/1024 pt.
#pragma once

#include "stakewright/drawing/page.hpp"

namespace stakewright::drawing {

/// The face everything is set in (Debian package fonts-dejavu-core).
inline constexpr const char* kFace = "DejaVu Sans";

/// Whether that face is installed.  Without it another stands in, and pages differ.
bool face_is_installed();

struct TextSize {
  double width_pt = 0.0;   ///< of the widest line
  double height_pt = 0.0;  ///< of all lines
  int lines = 1;
  bool cut = false;  ///< its end was replaced by "…"
};

TextSize text_size(const Text& text);

/// The box that the ink of the text lies in.
Box inked(const Text& text);

/// Height of a capital above the baseline: what centers a label on a point.
double cap_height_pt(double size_pt);

/// From the top of a line of text to its baseline, in the project's face.
double ascent_pt(double size_pt);

}  // namespace stakewright::drawing
