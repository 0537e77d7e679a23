#include "running_sheets.hpp"

namespace stakewright::forms {
namespace {

constexpr double kUnderParagraph_pt = 6.0;
constexpr Style kHeading{.size_pt = 13.0, .weight = drawing::Weight::bold};

}  // namespace

RunningSheets::RunningSheets(SheetKind kind, Paper paper) : kind_(kind), paper_(paper) {
  start_sheet();
}

void RunningSheets::use(double height_pt) {
  room_.y_pt += height_pt;
  room_.height_pt -= height_pt;
}

void RunningSheets::start_sheet() {
  sheets_.push_back(blank_sheet(kind_, paper_));
  room_ = body(page());
}

void RunningSheets::make_room(double height_pt) {
  const bool is_empty = page().marks.empty();
  if (!has_room(height_pt) && !is_empty) start_sheet();
}

void RunningSheets::add_caution(const std::string& words) {
  room_ = under_caution(page(), room_, words);
}

double RunningSheets::caution_height_pt(const std::string& words) const {
  return height_under_caution_pt(room_.width_pt, words);
}

void RunningSheets::add_paragraph(const std::string& words, const Style& style) {
  use(pen().paragraph(corner(), room_.width_pt, words, style) + kUnderParagraph_pt);
}

void RunningSheets::add_heading(const std::string& words) {
  pen().cut_text({room_.x_pt, room_.y_pt + kHeading.size_pt}, room_.width_pt, words, kHeading);
  use(kHeadingHeight_pt);
}

void RunningSheets::start_table(const Table& table) {
  table_ = table;
  draw_table_head();
}

void RunningSheets::draw_table_head() {
  Pen pen(page());
  head_ = corner();
  use(table_.draw_head(pen, head_) - head_.y_pt);
  below_head_ = true;
}

RunningSheets::Row RunningSheets::start_row(double height_pt) {
  if (!has_room(height_pt)) {
    end_table();
    start_sheet();
    draw_table_head();
  }
  const Row row{corner(), below_head_};
  use(height_pt);
  below_head_ = false;
  return row;
}

void RunningSheets::end_table() {
  Pen pen(page());
  table_.draw_uprights(pen, head_, room_.y_pt);
}

}  // namespace stakewright::forms
