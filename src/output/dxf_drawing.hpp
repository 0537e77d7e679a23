// A drawing in plan: points, texts and lines on layers, written as DXF.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "dxf_names.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/base/point.hpp"

namespace stakewright::output {

/// How the lines of a layer are drawn.  Nothing is told by color.
enum class DxfStroke { plain, heavy, dashed };

class DxfDrawing {
 public:
  /// `text_height_m` is of every text, and of the mark of a point.
  DxfDrawing(base::Units units, double text_height_m);

  /// A new layer, its name made one that DXF takes.
  std::size_t layer(std::string_view name, DxfStroke stroke = DxfStroke::plain);

  void point(std::size_t layer, base::Point at);
  /// Text to the right of a place and above it.
  void text(std::size_t layer, base::Point beside, std::string_view text);
  /// Text about its middle.
  void text_amid(std::size_t layer, base::Point middle, std::string_view text);
  void line(std::size_t layer, base::Point from, base::Point to);
  void closed(std::size_t layer, const std::vector<base::Point>& corners);

  /// The file (AC1015, of the year 2000, the first that states its unit).  The same drawing gives
  /// the same bytes.  Throws std::system_error when the system has no memory for it.
  [[nodiscard]] std::string file() const;

 private:
  friend class DxfWriter;

  struct Layer {
    std::string name;
    DxfStroke stroke;
  };
  struct Text {
    std::size_t layer;
    base::Point at;
    bool amid;
    std::string text;
  };
  /// One corner is a point, two are a line, more are closed.
  struct Shape {
    std::size_t layer;
    std::vector<base::Point> corners;
  };

  base::Units units_;
  double text_height_m_;
  DxfLayerNames names_;
  std::vector<Layer> layers_;
  std::vector<Shape> shapes_;
  std::vector<Text> texts_;
};

}  // namespace stakewright::output
