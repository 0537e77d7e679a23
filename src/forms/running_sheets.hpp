// Sheets of one kind, filled from the top down over as many pages as it takes.
#pragma once

#include <string>
#include <vector>

#include "pen.hpp"
#include "sheet.hpp"
#include "table.hpp"

namespace stakewright::forms {

class RunningSheets {
 public:
  RunningSheets(SheetKind kind, Paper paper);

  [[nodiscard]] drawing::Page& page() { return sheets_.back().page; }
  [[nodiscard]] Pen pen() { return Pen(page()); }

  /// What is left of the page.
  [[nodiscard]] const drawing::Box& room() const { return room_; }
  [[nodiscard]] drawing::At corner() const { return {room_.x_pt, room_.y_pt}; }
  void use(double height_pt);

  void start_sheet();
  /// A new sheet unless this one has so much room left, or is empty.
  void make_room(double height_pt);

  void add_caution(const std::string& words);
  [[nodiscard]] double caution_height_pt(const std::string& words) const;
  void add_paragraph(const std::string& words, const Style& style = kPlain);
  void add_heading(const std::string& words);

  /// Where a row begins, and whether it is the first below a head.
  struct Row {
    drawing::At top;
    bool is_first = false;
  };
  void start_table(const Table& table);
  /// Goes on below a new head on a new sheet when this one is full.
  Row start_row(double height_pt);
  void end_table();
  [[nodiscard]] bool has_room(double height_pt) const { return room_.height_pt >= height_pt; }
  [[nodiscard]] const Table& table() const { return table_; }

  std::vector<Sheet> taken() { return std::move(sheets_); }

 private:
  void draw_table_head();

  SheetKind kind_;
  Paper paper_;
  std::vector<Sheet> sheets_;
  drawing::Box room_;
  Table table_{{{"", 1.0}}, 1.0};
  drawing::At head_;
  bool below_head_ = false;
};

/// Height of `add_heading`.
inline constexpr double kHeadingHeight_pt = 20.0;

}  // namespace stakewright::forms
