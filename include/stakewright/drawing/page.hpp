// A page as a plain list of marks: lines, shapes, text.  Knows no stakes.
//
// Units: points (1/72 in) on paper; x from the left edge, y down from the top
// edge.  Black and white only: a job sheet is copied, faxed and rained on.
#pragma once

#include <string>
#include <variant>
#include <vector>

namespace stakewright::drawing {

inline constexpr double kPointsPerInch = 72.0;
inline constexpr double kPointsPerMillimeter = kPointsPerInch / 25.4;
inline constexpr double kPointsPerMeter = kPointsPerInch / 0.0254;

/// A place on the page.
struct At {
  double x_pt = 0.0;
  double y_pt = 0.0;
};

/// An upright rectangle; x, y is its top left corner.
struct Box {
  double x_pt = 0.0;
  double y_pt = 0.0;
  double width_pt = 0.0;
  double height_pt = 0.0;

  [[nodiscard]] double right_pt() const { return x_pt + width_pt; }
  [[nodiscard]] double bottom_pt() const { return y_pt + height_pt; }
};

enum class Fill { none, black, white };
enum class Ink { black, white };

/// How a line is drawn.  `width_pt` 0: not at all.
struct Stroke {
  double width_pt = 0.75;
  std::vector<double> dash_pt;  ///< lengths on, off, on, off …; empty: solid
};

struct Line {
  At from;
  At to;
  Stroke stroke;
};

/// A line through two or more points, left open.
struct Polyline {
  std::vector<At> points;
  Stroke stroke;
};

/// A closed line through three or more points.
struct Polygon {
  std::vector<At> points;
  Fill fill = Fill::none;
  Stroke stroke;
};

struct Rectangle {
  Box box;
  Fill fill = Fill::none;
  Stroke stroke;
};

struct Circle {
  At center;
  double radius_pt = 1.0;
  Fill fill = Fill::none;
  Stroke stroke;
};

/// Part of a circle, drawn clockwise on the page from one direction to the
/// other.  Directions are radians clockwise from the right-hand side.
struct Arc {
  At center;
  double radius_pt = 1.0;
  double from_rad = 0.0;
  double to_rad = 0.0;
  Stroke stroke;
};

enum class Weight { normal, bold };

/// Which part of the text stands at its place.
enum class Anchor { start, middle, end };

/// What becomes of text wider than `width_pt`.  In `cut` and `wrapped` text, marks stacked higher
/// than a line are clipped.
enum class Fit {
  free,     ///< no width is set
  cut,      ///< one line, its end replaced by "…"
  wrapped,  ///< broken into lines
};

/// Text in the project's one face, DejaVu Sans, upright on the page.  Any
/// script: shaping, direction and stand-in faces are Pango's business.
struct Text {
  At at;  ///< baseline of the (first) line, at the anchor
  std::string text;
  double size_pt = 10.0;
  Weight weight = Weight::normal;
  Anchor anchor = Anchor::start;
  Fit fit = Fit::free;
  double width_pt = 0.0;  ///< for `cut` and `wrapped`
  Ink ink = Ink::black;
};

using Mark = std::variant<Line, Polyline, Polygon, Rectangle, Circle, Arc, Text>;

enum class BlankKind { text, tick };

/// A place on the page where somebody writes.  It leaves no ink of its own: it
/// names the rectangle, so that a form can be filled in on a screen as well.
struct Blank {
  std::string name;  ///< unique within a document, the same in every language
  Box box;
  BlankKind kind = BlankKind::text;
};

struct Page {
  double width_pt = 612.0;
  double height_pt = 792.0;
  std::string title;        ///< for the file's own title, not drawn
  std::string description;  ///< what a reader who cannot see the page needs to know (SVG)
  std::vector<Mark> marks;  ///< in the order of drawing: later ones on top
  std::vector<Blank> blanks;
};

}  // namespace stakewright::drawing
