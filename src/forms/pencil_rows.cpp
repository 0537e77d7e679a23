#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "reading_parts.hpp"
#include "stakewright/results/tapes.hpp"
#include "stakewright/suspects/pencil.hpp"
#include "whole_steps.hpp"

namespace stakewright::forms {
namespace {

constexpr double kAbove_pt = 14.0;
enum Col : std::size_t { skip, like, planned, longest, shortest, difference, most };

Table pencil_table(const Wording& wording, double width_pt) {
  return {{{wording.text("pencil.skip"), 40.0},
           {wording.text("pencil.like"), 68.0},
           {wording.text("pencil.planned"), 84.0},
           {wording.text("pencil.longest"), 92.0},
           {wording.text("pencil.shortest"), 92.0},
           {wording.text("pencil.difference"), 84.0},
           {wording.text("pencil.most"), 76.0}},
          width_pt};
}

void add_row(RunningSheets& sheets, const suspects::PencilCheck& check, const FormInput& input) {
  const drawing::At top = sheets.start_row(kWritingRow_pt).top;
  const base::Units units = input.choices.units;
  Pen pen = sheets.pen();
  const auto cell = [&](Col column) { return sheets.table().cell(column, top, kWritingRow_pt); };
  pen.in_box(cell(skip), std::to_string(check.skip), kRowLabel);
  pen.in_box(cell(like), fmt::format("{}–{}", check.example.from, check.example.to));
  pen.in_box(cell(planned), base::text_from_length(check.planned_m, units));
  const std::array<std::pair<Col, const char*>, 3> blanks{
      {{longest, "longest"}, {shortest, "shortest"}, {difference, "difference"}}};
  for (const auto& [column, name] : blanks)
    add_length_blank(pen, fmt::format("pencil.{}.{}", check.skip, name), cell(column), units,
                     input.wording);
  pen.in_box(cell(most), rounded_up(check.limit_m, units), kStrong);
  pen.line({sheets.room().x_pt, sheets.room().y_pt}, {sheets.room().right_pt(), sheets.room().y_pt},
           kThin_pt);
}

}  // namespace

void add_pencil_check(RunningSheets& sheets, const FormInput& input) {
  const Wording& wording = input.wording;
  const auto checks = suspects::pencil_checks(input.job.plan, input.job.tolerance,
                                              results::default_tape(input.job), input.tapes);
  if (checks.empty()) return;
  const std::string how = wording.filled(
      "pencil.how",
      {{"corner", base::text_from_length(input.job.tolerance.corner_m, input.choices.units)}});
  const double width = sheets.room().width_pt;
  sheets.use(std::min(kAbove_pt, sheets.room().height_pt));
  sheets.make_room(kHeadingHeight_pt + paragraph_height_pt(width, how) + 8.0 + kTableHead_pt +
                   static_cast<double>(checks.size()) * kWritingRow_pt);
  sheets.add_heading(wording.text("pencil.heading"));
  sheets.add_paragraph(how);
  sheets.start_table(pencil_table(wording, width));
  for (const suspects::PencilCheck& check : checks) add_row(sheets, check, input);
  sheets.end_table();
}

}  // namespace stakewright::forms
