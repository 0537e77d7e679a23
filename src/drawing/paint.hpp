// Puts the marks of a page on a Cairo surface.
#pragma once

#include <cairo.h>

#include "stakewright/drawing/page.hpp"

namespace stakewright::drawing {

/// Draws every mark; the surface's unit must be the point.
void paint(cairo_t* cairo, const Page& page);

}  // namespace stakewright::drawing
