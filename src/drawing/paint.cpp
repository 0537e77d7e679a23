#include "paint.hpp"

#include <numbers>

#include "typeset.hpp"

namespace stakewright::drawing {
namespace {

void set_ink(cairo_t* cairo, Ink ink) {
  const double gray = ink == Ink::white ? 1.0 : 0.0;
  cairo_set_source_rgb(cairo, gray, gray, gray);
}

void trace(cairo_t* cairo, const std::vector<At>& points) {
  for (const At& point : points) cairo_line_to(cairo, point.x_pt, point.y_pt);
}

/// Fills and strokes the current path, and forgets it.
void finish(cairo_t* cairo, Fill fill, const Stroke& stroke) {
  if (fill != Fill::none) {
    set_ink(cairo, fill == Fill::white ? Ink::white : Ink::black);
    cairo_fill_preserve(cairo);
  }
  if (stroke.width_pt > 0.0) {
    set_ink(cairo, Ink::black);
    cairo_set_line_width(cairo, stroke.width_pt);
    cairo_set_dash(cairo, stroke.dash_pt.data(), static_cast<int>(stroke.dash_pt.size()), 0.0);
    cairo_stroke_preserve(cairo);
  }
  cairo_new_path(cairo);
}

struct Painter {
  cairo_t* cairo;
  PangoContext* context;

  void operator()(const Line& line) const {
    trace(cairo, {line.from, line.to});
    finish(cairo, Fill::none, line.stroke);
  }
  void operator()(const Polyline& polyline) const {
    trace(cairo, polyline.points);
    finish(cairo, Fill::none, polyline.stroke);
  }
  void operator()(const Polygon& polygon) const {
    trace(cairo, polygon.points);
    cairo_close_path(cairo);
    finish(cairo, polygon.fill, polygon.stroke);
  }
  void operator()(const Rectangle& rectangle) const {
    const Box& box = rectangle.box;
    cairo_rectangle(cairo, box.x_pt, box.y_pt, box.width_pt, box.height_pt);
    finish(cairo, rectangle.fill, rectangle.stroke);
  }
  void operator()(const Circle& circle) const {
    cairo_arc(cairo, circle.center.x_pt, circle.center.y_pt, circle.radius_pt, 0.0,
              2.0 * std::numbers::pi);
    cairo_close_path(cairo);
    finish(cairo, circle.fill, circle.stroke);
  }
  void operator()(const Arc& arc) const {
    cairo_arc(cairo, arc.center.x_pt, arc.center.y_pt, arc.radius_pt, arc.from_rad, arc.to_rad);
    finish(cairo, Fill::none, arc.stroke);
  }
  void operator()(const Text& text) const {
    const Typeset set = typeset(context, text);
    cairo_save(cairo);
    if (text.fit != Fit::free) {
      const Box clip = band(text, set);
      cairo_rectangle(cairo, clip.x_pt, clip.y_pt, clip.width_pt, clip.height_pt);
      cairo_clip(cairo);
    }
    set_ink(cairo, text.ink);
    cairo_move_to(cairo, set.corner.x_pt, set.corner.y_pt);
    pango_cairo_show_layout(cairo, set.layout.get());
    cairo_restore(cairo);
    cairo_new_path(cairo);
  }
};

}  // namespace

void paint(cairo_t* cairo, const Page& page) {
  cairo_set_line_cap(cairo, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join(cairo, CAIRO_LINE_JOIN_MITER);
  const PangoContextHandle context = text_context();
  const Painter painter{cairo, context.get()};
  for (const Mark& mark : page.marks) std::visit(painter, mark);
}

}  // namespace stakewright::drawing
