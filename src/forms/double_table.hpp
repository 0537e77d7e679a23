// Short rows side by side, two to a line of the page.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "running_sheets.hpp"

namespace stakewright::forms {

/// A table whose rows stand in two columns: the first half of them left, the second half right.
class DoubleTable {
 public:
  /// `columns` of one half; `rows` in all.
  DoubleTable(RunningSheets& sheets, std::vector<Column> columns, std::size_t rows);

  /// Height of head and rows.
  [[nodiscard]] double height_pt() const;

  /// Calls `fill(pen, row, cells)` for every row, `cells` those of the half's columns.
  template <class Fill>
  void draw(Fill&& fill) {
    sheets_.start_table(table_);
    for (std::size_t line = 0; line < lines_; ++line) {
      const RunningSheets::Row row = sheets_.start_row(kRow_pt);
      Pen pen = sheets_.pen();
      for (std::size_t half = 0; half < 2; ++half) {
        const std::size_t index = line + half * lines_;
        if (index < rows_) fill(pen, index, cells(half, row.top));
      }
      rule_off(pen);
    }
    sheets_.end_table();
  }

 private:
  static constexpr double kRow_pt = 23.0;
  static_assert(kRow_pt >= kLeastRow_pt);

  [[nodiscard]] std::vector<drawing::Box> cells(std::size_t half, drawing::At top) const;
  void rule_off(Pen& pen) const;

  RunningSheets& sheets_;
  std::size_t half_columns_;
  std::size_t rows_;
  std::size_t lines_;
  Table table_;
};

}  // namespace stakewright::forms
