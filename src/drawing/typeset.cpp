#include "typeset.hpp"

#include "stakewright/drawing/text.hpp"

#ifdef __SANITIZE_ADDRESS__
/// Fontconfig keeps what it has read of the fonts to the end of the process; no leak of ours.
extern "C" const char* __lsan_default_suppressions() { return "leak:libfontconfig\n"; }
#endif

namespace stakewright::drawing {
namespace {

struct FreeDescription {
  void operator()(PangoFontDescription* description) const {
    pango_font_description_free(description);
  }
};

PangoAlignment alignment(Anchor anchor) {
  switch (anchor) {
    case Anchor::middle:
      return PANGO_ALIGN_CENTER;
    case Anchor::end:
      return PANGO_ALIGN_RIGHT;
    case Anchor::start:
      break;
  }
  return PANGO_ALIGN_LEFT;
}

double share_before_anchor(Anchor anchor) {
  switch (anchor) {
    case Anchor::middle:
      return 0.5;
    case Anchor::end:
      return 1.0;
    case Anchor::start:
      break;
  }
  return 0.0;
}

void set_font(PangoLayout* layout, const Text& text) {
  const std::unique_ptr<PangoFontDescription, FreeDescription> font(pango_font_description_new());
  pango_font_description_set_family_static(font.get(), kFace);
  pango_font_description_set_weight(
      font.get(), text.weight == Weight::bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(font.get(), text.size_pt * PANGO_SCALE);
  pango_layout_set_font_description(layout, font.get());
}

void set_fit(PangoLayout* layout, const Text& text) {
  pango_layout_set_single_paragraph_mode(layout, text.fit == Fit::wrapped ? FALSE : TRUE);
  if (text.fit == Fit::free) return;
  pango_layout_set_width(layout, pango_units_from_double(text.width_pt));
  pango_layout_set_alignment(layout, alignment(text.anchor));
  if (text.fit == Fit::cut) {
    pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_END);
  } else {
    pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
  }
}

}  // namespace

PangoContextHandle text_context() {
  // Pango keeps the font map, one a thread; the context is ours.
  PangoContextHandle context(pango_font_map_create_context(pango_cairo_font_map_get_default()));
  pango_cairo_context_set_resolution(context.get(), kPointsPerInch);
  pango_context_set_round_glyph_positions(context.get(), FALSE);
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context.get(), options);
  cairo_font_options_destroy(options);
  return context;
}

Typeset typeset(PangoContext* context, const Text& text) {
  Typeset set{PangoLayoutHandle(pango_layout_new(context)), {}, {}};
  PangoLayout* layout = set.layout.get();
  set_font(layout, text);
  set_fit(layout, text);
  pango_layout_set_text(layout, text.text.data(), static_cast<int>(text.text.size()));

  // Placed by its extent, not by its alignment: right-to-left text would
  // otherwise end up at the other side of its width.
  PangoRectangle lines;
  pango_layout_get_extents(layout, nullptr, &lines);
  const double width_pt = pango_units_to_double(lines.width);
  const double left_pt = text.at.x_pt - share_before_anchor(text.anchor) * width_pt;
  const double top_pt = text.at.y_pt - pango_units_to_double(pango_layout_get_baseline(layout));
  set.corner = {left_pt - pango_units_to_double(lines.x), top_pt};
  set.line_box = {left_pt, top_pt + pango_units_to_double(lines.y), width_pt,
                  pango_units_to_double(lines.height)};
  return set;
}

Box band(const Text& text, const Typeset& set) {
  if (text.fit == Fit::wrapped) return set.line_box;
  const double ascent = ascent_pt(text.size_pt);
  const double descent = text.size_pt * 483.0 / 2048.0;  // as `ascent_pt`
  return {set.line_box.x_pt, text.at.y_pt - ascent, set.line_box.width_pt, ascent + descent};
}

}  // namespace stakewright::drawing
