#include <fmt/format.h>

#include <algorithm>

#include "reading_parts.hpp"
#include "stakewright/forms/reading_rows.hpp"

namespace stakewright::forms {
namespace {

using drawing::At;

constexpr std::size_t kSpareRows = 3;
constexpr Style kSkipNumber{.anchor = drawing::Anchor::middle};

/// Where each column of the reading table stands; `planned` is there only when it is shown.
struct Columns {
  std::size_t hold = 0;
  std::size_t to = 1;
  std::size_t skip = 2;
  std::size_t planned = 3;
  std::size_t first = 3;
  std::size_t second = 4;
  std::size_t instrument = 5;
  std::size_t burned = 6;
  std::size_t note = 7;
};

Columns columns_of(bool show_planned) {
  if (!show_planned) return {};
  return {0, 1, 2, 3, 4, 5, 6, 7, 8};
}

/// Planned lengths get the room they need; the two readings share what is left.
Table reading_table(const FormInput& input, double width_pt_of_table) {
  const Wording& wording = input.wording;
  const bool show_planned = input.choices.show_planned;
  constexpr double kHold_pt = 52.0;
  constexpr double kTo_pt = 58.0;
  constexpr double kTape_pt = 46.0;
  constexpr double kSkip_pt = 40.0;
  constexpr double kHeldOn_pt = 58.0;
  const double note = show_planned ? 44.0 : 58.0;
  double planned = 0.0;
  if (show_planned) {
    planned = width_pt(wording.text("reading.planned"), kStrong);
    for (const layout::Tape& tape : input.tapes)
      planned =
          std::max(planned, width_pt(base::text_from_length(tape.length_m, input.choices.units)));
    planned += 2.0 * kCellMargin_pt + 2.0;
  }
  const double reading =
      (width_pt_of_table - kHold_pt - kTo_pt - kSkip_pt - planned - kTape_pt - kHeldOn_pt - note) /
      2.0;
  std::vector<Column> columns{{wording.text("reading.hold"), kHold_pt},
                              {wording.text("reading.to"), kTo_pt},
                              {wording.text("reading.skip"), kSkip_pt}};
  if (show_planned) columns.push_back({wording.text("reading.planned"), planned});
  columns.insert(columns.end(), {{wording.text("reading.first"), reading},
                                 {wording.text("reading.second"), reading},
                                 {wording.text("reading.instrument"), kTape_pt},
                                 {wording.text("reading.burned"), kHeldOn_pt},
                                 {wording.text("reading.note"), note}});
  return {columns, width_pt_of_table};
}

class TapeRows {
 public:
  TapeRows(RunningSheets& sheets, const FormInput& input)
      : sheets_(sheets), input_(input), columns_(columns_of(input.choices.show_planned)) {}

  void add() {
    sheets_.start_table(reading_table(input_, sheets_.room().width_pt));
    for (const Station& station : grouped(input_.tapes)) add_station(station);
    add_spare_rows();
    sheets_.end_table();
  }

 private:
  [[nodiscard]] drawing::Box cell(std::size_t column, At top) const {
    return sheets_.table().cell(column, top, kWritingRow_pt);
  }

  void add_station(const Station& station) {
    for (std::size_t i = 0; i < station.tapes.size(); ++i) {
      const RunningSheets::Row row = sheets_.start_row(kWritingRow_pt);
      Pen pen = sheets_.pen();
      if (i == 0 || row.is_first)
        pen.in_box(cell(columns_.hold, row.top), station.hold, kHoldLabel);
      add_row(pen, row.top, station.tapes[i]);
      const bool last = i + 1 == station.tapes.size() || !sheets_.has_room(kWritingRow_pt);
      const double left = last ? 0.0 : sheets_.table().edge_pt(columns_.to);
      rule_off(pen, left, last ? kBold_pt : kThin_pt);
    }
  }

  void rule_off(Pen& pen, double from_pt, double width_pt) {
    const drawing::Box& room = sheets_.room();
    pen.line({room.x_pt + from_pt, room.y_pt}, {room.right_pt(), room.y_pt}, width_pt);
  }

  void add_row(Pen& pen, At top, const layout::Tape& tape) {
    pen.in_box(cell(columns_.to, top), tape.to, kRowLabel);
    if (tape.skip > 0) pen.in_box(cell(columns_.skip, top), std::to_string(tape.skip), kSkipNumber);
    if (input_.choices.show_planned) {
      pen.in_box(cell(columns_.planned, top),
                 base::text_from_length(tape.length_m, input_.choices.units));
    }
    add_blanks(pen, top, names_.name_of(tape.from, tape.to));
  }

  void add_blanks(Pen& pen, At top, const std::string& row) {
    const base::Units units = input_.choices.units;
    add_length_blank(pen, fmt::format("reading.{}.1", row), cell(columns_.first, top), units,
                     input_.wording);
    add_length_blank(pen, fmt::format("reading.{}.2", row), cell(columns_.second, top), units,
                     input_.wording);
    pen.blank("instrument." + row, cell(columns_.instrument, top));
    pen.blank("burned." + row, cell(columns_.burned, top));
    pen.blank("note." + row, cell(columns_.note, top));
  }

  /// A few rows for whatever else is taped, if the page has room.
  void add_spare_rows() {
    for (std::size_t i = 1; i <= kSpareRows && sheets_.has_room(kWritingRow_pt); ++i) {
      const At top = sheets_.start_row(kWritingRow_pt).top;
      Pen pen = sheets_.pen();
      const std::string row = fmt::format("s{}", i);
      pen.blank("hold." + row, cell(columns_.hold, top));
      pen.blank("to." + row, cell(columns_.to, top));
      add_blanks(pen, top, row);
      rule_off(pen, 0.0, kThin_pt);
    }
  }

  RunningSheets& sheets_;
  const FormInput& input_;
  Columns columns_;
  RowNames names_;
};

}  // namespace

void add_tape_rows(RunningSheets& sheets, const FormInput& input) { TapeRows(sheets, input).add(); }

}  // namespace stakewright::forms
