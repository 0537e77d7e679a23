#include <fmt/format.h>

#include <algorithm>

#include "double_table.hpp"
#include "reading_parts.hpp"

namespace stakewright::forms {
namespace {

constexpr std::size_t kSpareRows = 2;
constexpr double kAbove_pt = 14.0;

std::vector<Column> columns(const Wording& wording) {
  return {{wording.text("laser.hold"), 46.0},
          {wording.text("laser.to"), 52.0},
          {wording.text("laser.first"), 86.0},
          {wording.text("laser.second"), 86.0}};
}

void add_row(Pen& pen, const std::string& row, const std::vector<drawing::Box>& cells,
             const FormInput& input) {
  for (const int which : {1, 2})
    add_length_blank(pen, fmt::format("laser.{}.{}", row, which),
                     cells[1 + static_cast<std::size_t>(which)], input.choices.units,
                     input.wording);
}

}  // namespace

void add_laser_rows(RunningSheets& sheets, const FormInput& input) {
  const Wording& wording = input.wording;
  const auto corners = layout::stakes(input.job.plan);
  DoubleTable table(sheets, columns(wording), corners.size() + kSpareRows);
  const double width = sheets.room().width_pt;
  sheets.use(std::min(kAbove_pt, sheets.room().height_pt));
  sheets.make_room(kHeadingHeight_pt + sheets.caution_height_pt(wording.text("laser.caution")) +
                   paragraph_height_pt(width, wording.text("laser.how")) + kField_pt + 8.0 +
                   table.height_pt());
  sheets.add_heading(wording.text("laser.heading"));
  sheets.add_caution(wording.text("laser.caution"));
  sheets.use(sheets.pen().paragraph(sheets.corner(), width, wording.text("laser.how")));
  add_fields(sheets,
             {{"laser-name", wording.text("laser.name"), 0.0, 0.45 * width},
              {"laser-edge", wording.text("laser.edge"), 0.48 * width, width}},
             wording);
  sheets.use(8.0);
  table.draw([&](Pen& pen, std::size_t index, const std::vector<drawing::Box>& cells) {
    if (index < corners.size()) {
      pen.in_box(cells[0], layout::kCenterLabel, kRowLabel);
      pen.in_box(cells[1], corners[index].label, kRowLabel);
      add_row(pen, fmt::format("{}-{}", layout::kCenterLabel, corners[index].label), cells, input);
      return;
    }
    const std::string row = fmt::format("s{}", index - corners.size() + 1);
    pen.blank("laser-hold." + row, cells[0]);
    pen.blank("laser-to." + row, cells[1]);
    add_row(pen, row, cells, input);
  });
}

}  // namespace stakewright::forms
