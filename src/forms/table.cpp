#include "table.hpp"

#include <numeric>

namespace stakewright::forms {

using drawing::At;
using drawing::Box;

Table::Table(std::vector<Column> columns, double width_pt) : columns_(std::move(columns)) {
  const double sum =
      std::accumulate(columns_.begin(), columns_.end(), 0.0,
                      [](double so_far, const Column& column) { return so_far + column.width_pt; });
  edges_.push_back(0.0);
  for (const Column& column : columns_)
    edges_.push_back(edges_.back() + column.width_pt * width_pt / sum);
}

double Table::draw_head(Pen& pen, At top) const {
  const double bottom = top.y_pt + kTableHead_pt;
  for (std::size_t i = 0; i < columns_.size(); ++i)
    pen.in_box(cell(i, top, kTableHead_pt), columns_[i].heading, kStrong);
  pen.line({top.x_pt, top.y_pt}, {top.x_pt + width_pt(), top.y_pt}, kBold_pt);
  pen.line({top.x_pt, bottom}, {top.x_pt + width_pt(), bottom}, kBold_pt);
  return bottom;
}

Box Table::cell(std::size_t column, At top, double height_pt) const {
  return {top.x_pt + edges_[column], top.y_pt, edges_[column + 1] - edges_[column], height_pt};
}

void Table::draw_uprights(Pen& pen, At top, double bottom_pt) const {
  for (std::size_t i = 0; i < edges_.size(); ++i) {
    if (i > 0 && columns_[i - 1].with_next) continue;
    pen.line({top.x_pt + edges_[i], top.y_pt}, {top.x_pt + edges_[i], bottom_pt}, kThin_pt);
  }
}

}  // namespace stakewright::forms
