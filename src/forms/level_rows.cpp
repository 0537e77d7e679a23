#include <fmt/format.h>

#include <algorithm>

#include "double_table.hpp"
#include "reading_parts.hpp"

namespace stakewright::forms {
namespace {

constexpr std::size_t kTurningPoints = 2;
constexpr std::size_t kSpareRows = 2;
constexpr double kAbove_pt = 14.0;

std::vector<Column> columns(const Wording& wording) {
  const auto set_up = [&](const char* number) {
    return wording.filled("level.set_up", {{"number", number}});
  };
  return {{wording.text("level.point"), 60.0}, {set_up("1"), 100.0}, {set_up("2"), 100.0}};
}

/// Labels of all rows; empty where the crew writes one.
std::vector<std::string> labels(const layout::Plan& plan) {
  std::vector<std::string> result;
  for (const layout::Stake& corner : layout::stakes(plan)) result.push_back(corner.label);
  for (std::size_t i = 1; i <= kTurningPoints; ++i) result.push_back(fmt::format("T{}", i));
  result.resize(result.size() + kSpareRows);
  return result;
}

}  // namespace

void add_level_rows(RunningSheets& sheets, const FormInput& input) {
  const Wording& wording = input.wording;
  const auto points = labels(input.job.plan);
  DoubleTable table(sheets, columns(wording), points.size());
  const double width = sheets.room().width_pt;
  sheets.use(std::min(kAbove_pt, sheets.room().height_pt));
  sheets.make_room(kHeadingHeight_pt + paragraph_height_pt(width, wording.text("level.how")) +
                   kField_pt + 8.0 + table.height_pt());
  sheets.add_heading(wording.text("level.heading"));
  sheets.use(sheets.pen().paragraph(sheets.corner(), width, wording.text("level.how")));
  add_fields(sheets, {{"level-name", wording.text("level.name"), 0.0, 0.45 * width}}, wording);
  sheets.use(8.0);
  table.draw([&](Pen& pen, std::size_t index, const std::vector<drawing::Box>& cells) {
    std::string row = points[index];
    if (row.empty()) {
      row = fmt::format("s{}", index + 1 + kSpareRows - points.size());
      pen.blank("level-point." + row, cells[0]);
    } else {
      pen.in_box(cells[0], row, kRowLabel);
    }
    for (const int set_up : {1, 2})
      add_length_blank(pen, fmt::format("level.{}.{}", set_up, row),
                       cells[static_cast<std::size_t>(set_up)], input.choices.units, wording);
  });
}

}  // namespace stakewright::forms
