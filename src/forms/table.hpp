// Tables that are written in: columns, a head, rows as high as a pencil needs.
#pragma once

#include <string>
#include <vector>

#include "pen.hpp"
#include "stakewright/drawing/page.hpp"

namespace stakewright::forms {

/// Least height of a row somebody writes in: 8 mm.
inline constexpr double kLeastRow_pt = 8.0 * drawing::kPointsPerMillimeter;

struct Column {
  std::string heading;
  double width_pt = 50.0;
  bool with_next = false;  ///< no rule between this column and the next: the two are read together
};

class Table {
 public:
  /// Stretches or shrinks the columns together to fill `width_pt`.
  Table(std::vector<Column> columns, double width_pt);

  /// Draws the head at `top`; returns where the first row begins.
  double draw_head(Pen& pen, drawing::At top) const;

  /// The cell of a column in a row that begins at `top`.
  [[nodiscard]] drawing::Box cell(std::size_t column, drawing::At top, double height_pt) const;

  /// Width that `Pen::in_box` has for words in a cell.
  [[nodiscard]] static double inside_pt(const drawing::Box& cell) {
    return cell.width_pt - 2.0 * kCellMargin_pt;
  }

  [[nodiscard]] double width_pt() const { return edges_.back(); }
  [[nodiscard]] double edge_pt(std::size_t column) const { return edges_[column]; }
  [[nodiscard]] std::size_t columns() const { return columns_.size(); }

  /// Upright rules from the top of the head to the last row.
  void draw_uprights(Pen& pen, drawing::At top, double bottom_pt) const;

 private:
  std::vector<Column> columns_;
  std::vector<double> edges_;  ///< from the left edge: 0 … width
};

inline constexpr double kTableHead_pt = 18.0;

}  // namespace stakewright::forms
