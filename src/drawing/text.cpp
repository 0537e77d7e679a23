#include "stakewright/drawing/text.hpp"

#include <algorithm>
#include <string_view>

#include "typeset.hpp"

namespace stakewright::drawing {

bool face_is_installed() {
  PangoFontFamily** families = nullptr;
  int count = 0;
  pango_font_map_list_families(pango_cairo_font_map_get_default(), &families, &count);
  const bool found = std::any_of(families, families + count, [](PangoFontFamily* family) {
    return std::string_view(pango_font_family_get_name(family)) == kFace;
  });
  g_free(families);
  return found;
}

TextSize text_size(const Text& text) {
  const PangoContextHandle context = text_context();
  const Typeset set = typeset(context.get(), text);
  return {set.line_box.width_pt, set.line_box.height_pt,
          pango_layout_get_line_count(set.layout.get()),
          pango_layout_is_ellipsized(set.layout.get()) != FALSE};
}

Box inked(const Text& text) {
  const PangoContextHandle context = text_context();
  const Typeset set = typeset(context.get(), text);
  PangoRectangle ink;
  pango_layout_get_extents(set.layout.get(), &ink, nullptr);
  const Box box{set.corner.x_pt + pango_units_to_double(ink.x),
                set.corner.y_pt + pango_units_to_double(ink.y), pango_units_to_double(ink.width),
                pango_units_to_double(ink.height)};
  if (text.fit == Fit::free) return box;
  const Box clip = band(text, set);
  const double left = std::max(box.x_pt, clip.x_pt);
  const double top = std::max(box.y_pt, clip.y_pt);
  return {left, top, std::max(0.0, std::min(box.right_pt(), clip.right_pt()) - left),
          std::max(0.0, std::min(box.bottom_pt(), clip.bottom_pt()) - top)};
}

double cap_height_pt(double size_pt) {
  // DejaVu Sans 2.37: its H is 1493 of 2048 units high (glyf table).
  return size_pt * 1493.0 / 2048.0;
}

double ascent_pt(double size_pt) {
  // DejaVu Sans 2.37: ascender 1901 of 2048 units (hhea table).
  return size_pt * 1901.0 / 2048.0;
}

}  // namespace stakewright::drawing
