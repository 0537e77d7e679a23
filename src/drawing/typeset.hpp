// One piece of text laid out by Pango, and where it stands on the page.
#pragma once

#include <pango/pangocairo.h>

#include <memory>

#include "stakewright/drawing/page.hpp"

namespace stakewright::drawing {

struct Unreference {
  void operator()(gpointer object) const { g_object_unref(object); }
};
using PangoContextHandle = std::unique_ptr<PangoContext, Unreference>;
using PangoLayoutHandle = std::unique_ptr<PangoLayout, Unreference>;

/// A context for measuring and drawing alike: unhinted, one unit a point.
PangoContextHandle text_context();

struct Typeset {
  PangoLayoutHandle layout;
  At corner;     ///< where the layout's own origin goes on the page
  Box line_box;  ///< what the lines take up, from ascent to descent
};

Typeset typeset(PangoContext* context, const Text& text);

/// What text fitted to a width may ink: its lines, and for cut text one line of the project's own
/// face.  Marks stacked higher than that are clipped.
Box band(const Text& text, const Typeset& set);

}  // namespace stakewright::drawing
