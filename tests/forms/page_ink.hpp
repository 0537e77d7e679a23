// What of a page is ink, and whether words and ink get in each other's way.
// Worked by separating axes, not as the form itself looks for room.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "stakewright/drawing/page.hpp"
#include "stakewright/drawing/text.hpp"

namespace stakewright::forms {

using drawing::At;
using drawing::Box;

struct Words {
  drawing::Text text;
  Box ink;
};

/// A straight piece of ink, or the outline of a filled shape, with its half width.
struct Shape {
  std::vector<At> corners;  ///< convex
  double half_width_pt = 0.0;
  drawing::Fill fill = drawing::Fill::none;
};

struct PageInk {
  std::vector<Words> words;
  std::vector<Shape> shapes;
};

class InkCollector {
 public:
  void operator()(const drawing::Line& line) { stroke({line.from, line.to}, line.stroke); }
  void operator()(const drawing::Polyline& polyline) { stroke(polyline.points, polyline.stroke); }
  void operator()(const drawing::Polygon& polygon) {
    fill(polygon.points, polygon.fill);
    auto closed = polygon.points;
    closed.push_back(closed.front());
    stroke(closed, polygon.stroke);
  }
  void operator()(const drawing::Rectangle& r) {
    (*this)(drawing::Polygon{{{r.box.x_pt, r.box.y_pt},
                              {r.box.right_pt(), r.box.y_pt},
                              {r.box.right_pt(), r.box.bottom_pt()},
                              {r.box.x_pt, r.box.bottom_pt()}},
                             r.fill,
                             r.stroke});
  }
  void operator()(const drawing::Circle& circle) {
    drawing::Polygon polygon{along(circle.center, circle.radius_pt, 0.0, 2.0 * std::numbers::pi),
                             circle.fill, circle.stroke};
    (*this)(polygon);
  }
  void operator()(const drawing::Arc& arc) {
    stroke(along(arc.center, arc.radius_pt, arc.from_rad, arc.to_rad), arc.stroke);
  }
  void operator()(const drawing::Text& text) {
    if (!text.text.empty()) ink.words.push_back({text, drawing::inked(text)});
  }

  PageInk ink;

 private:
  static std::vector<At> along(At center, double radius, double from, double to) {
    constexpr int kPieces = 32;
    std::vector<At> points;
    for (int k = 0; k <= kPieces; ++k) {
      const double angle = from + (to - from) * k / kPieces;
      points.push_back(
          {center.x_pt + radius * std::cos(angle), center.y_pt + radius * std::sin(angle)});
    }
    return points;
  }
  void stroke(const std::vector<At>& points, const drawing::Stroke& stroke) {
    if (stroke.width_pt <= 0.0) return;
    for (std::size_t i = 1; i < points.size(); ++i)
      ink.shapes.push_back(
          {{points[i - 1], points[i]}, stroke.width_pt / 2.0, drawing::Fill::none});
  }
  void fill(const std::vector<At>& points, drawing::Fill fill) {
    if (fill != drawing::Fill::none) ink.shapes.push_back({points, 0.0, fill});
  }
};

inline PageInk ink_of(const drawing::Page& page) {
  InkCollector collector;
  for (const drawing::Mark& mark : page.marks) std::visit(collector, mark);
  return collector.ink;
}

inline std::array<At, 4> corners_of(const Box& box) {
  return {{{box.x_pt, box.y_pt},
           {box.right_pt(), box.y_pt},
           {box.right_pt(), box.bottom_pt()},
           {box.x_pt, box.bottom_pt()}}};
}

inline bool overlap(const Box& a, const Box& b) {
  return a.x_pt < b.right_pt() && b.x_pt < a.right_pt() && a.y_pt < b.bottom_pt() &&
         b.y_pt < a.bottom_pt();
}

inline bool within(const Box& inner, const Box& outer) {
  return inner.x_pt >= outer.x_pt && inner.right_pt() <= outer.right_pt() &&
         inner.y_pt >= outer.y_pt && inner.bottom_pt() <= outer.bottom_pt();
}

/// Two convex shapes are apart when some edge of either has them on opposite sides.
inline bool touches(const Box& box, const Shape& shape) {
  std::vector<At> axes{{1.0, 0.0}, {0.0, 1.0}};
  for (std::size_t i = 0; i < shape.corners.size(); ++i) {
    const At& a = shape.corners[i];
    const At& b = shape.corners[(i + 1) % shape.corners.size()];
    const double length = std::hypot(b.x_pt - a.x_pt, b.y_pt - a.y_pt);
    if (length > 0.0) axes.push_back({-(b.y_pt - a.y_pt) / length, (b.x_pt - a.x_pt) / length});
  }
  for (const At& axis : axes) {
    const auto span = [&](const auto& points) {
      double low = 1e30;
      double high = -1e30;
      for (const At& p : points) {
        const double place = axis.x_pt * p.x_pt + axis.y_pt * p.y_pt;
        low = std::min(low, place);
        high = std::max(high, place);
      }
      return std::array{low, high};
    };
    const auto one = span(corners_of(box));
    const auto other = span(shape.corners);
    if (one[1] < other[0] - shape.half_width_pt || other[1] + shape.half_width_pt < one[0])
      return false;
  }
  return true;
}

/// White words stand on black, everything else on bare paper.
inline bool may_touch(const Words& words, const Shape& shape) {
  return words.text.ink == drawing::Ink::white && shape.fill == drawing::Fill::black;
}

/// One line for each place where words lie over words or over other ink.
inline std::vector<std::string> collisions(const drawing::Page& page) {
  const PageInk ink = ink_of(page);
  std::vector<std::string> found;
  for (std::size_t i = 0; i < ink.words.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j)
      if (overlap(ink.words[i].ink, ink.words[j].ink))
        found.push_back(ink.words[i].text.text + " over " + ink.words[j].text.text);
    for (const Shape& shape : ink.shapes)
      if (touches(ink.words[i].ink, shape) && !may_touch(ink.words[i], shape))
        found.push_back(ink.words[i].text.text + " over a line at " +
                        std::to_string(shape.corners[0].x_pt) + ", " +
                        std::to_string(shape.corners[0].y_pt));
  }
  return found;
}

/// The box that all ink of a page lies in.
inline Box inked_area(const drawing::Page& page) {
  const PageInk ink = ink_of(page);
  double left = 1e30;
  double top = 1e30;
  double right = -1e30;
  double bottom = -1e30;
  const auto take = [&](double x, double y, double half) {
    left = std::min(left, x - half);
    top = std::min(top, y - half);
    right = std::max(right, x + half);
    bottom = std::max(bottom, y + half);
  };
  for (const Words& words : ink.words)
    for (const At& corner : corners_of(words.ink)) take(corner.x_pt, corner.y_pt, 0.0);
  for (const Shape& shape : ink.shapes)
    for (const At& corner : shape.corners) take(corner.x_pt, corner.y_pt, shape.half_width_pt);
  return {left, top, right - left, bottom - top};
}

/// How often a page says exactly this.
inline int count_of(const drawing::Page& page, const std::string& words) {
  int count = 0;
  for (const drawing::Mark& mark : page.marks)
    if (const auto* text = std::get_if<drawing::Text>(&mark)) count += text->text == words ? 1 : 0;
  return count;
}

}  // namespace stakewright::forms
