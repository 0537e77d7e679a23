#include "double_table.hpp"

namespace stakewright::forms {
namespace {

/// White between the halves.
constexpr double kBetween_pt = 14.0;

Table both_halves(const std::vector<Column>& half, double width_pt) {
  double sum = 0.0;
  for (const Column& column : half) sum += column.width_pt;
  const double scale = (width_pt - kBetween_pt) / (2.0 * sum);
  std::vector<Column> columns;
  for (const Column& column : half) columns.push_back({column.heading, column.width_pt * scale});
  columns.push_back({"", kBetween_pt});
  for (const Column& column : half) columns.push_back({column.heading, column.width_pt * scale});
  return {columns, width_pt};
}

}  // namespace

DoubleTable::DoubleTable(RunningSheets& sheets, std::vector<Column> columns, std::size_t rows)
    : sheets_(sheets),
      half_columns_(columns.size()),
      rows_(rows),
      lines_((rows + 1) / 2),
      table_(both_halves(columns, sheets.room().width_pt)) {}

double DoubleTable::height_pt() const {
  return kTableHead_pt + static_cast<double>(lines_) * kRow_pt;
}

std::vector<drawing::Box> DoubleTable::cells(std::size_t half, drawing::At top) const {
  std::vector<drawing::Box> boxes;
  const std::size_t first = half * (half_columns_ + 1);
  for (std::size_t i = 0; i < half_columns_; ++i)
    boxes.push_back(table_.cell(first + i, top, kRow_pt));
  return boxes;
}

void DoubleTable::rule_off(Pen& pen) const {
  const drawing::Box& room = sheets_.room();
  const double gap = room.x_pt + table_.edge_pt(half_columns_);
  pen.line({room.x_pt, room.y_pt}, {gap, room.y_pt}, kThin_pt);
  pen.line({gap + kBetween_pt, room.y_pt}, {room.right_pt(), room.y_pt}, kThin_pt);
}

}  // namespace stakewright::forms
