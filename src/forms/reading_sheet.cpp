// Sheet 3: blanks for tapes, laser and level, and what can be checked without a computer.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "sheet.hpp"
#include "stakewright/forms/reading_rows.hpp"
#include "stakewright/results/tapes.hpp"
#include "stakewright/suspects/pencil.hpp"

namespace stakewright::forms {
namespace {

using base::Length;
using drawing::At;
using drawing::Box;

/// Above each part but the first.
constexpr double kAbove_pt = 14.0;
constexpr double kUnderFields_pt = 8.0;
constexpr Style kHoldLabel{
    .size_pt = 17.0, .weight = drawing::Weight::bold, .anchor = drawing::Anchor::middle};

void add_opening(RunningSheets& sheets) {
  sheets.add_caution({"reading.caution"});
  sheets.add_paragraph(Fact{"reading.how"}, kPlain, 0.0);
  const double w = sheets.room().width_pt;
  add_fields(sheets, {{"date", {"reading.date"}, 0.0, 0.22 * w},
                      {"round", {"reading.round"}, 0.24 * w, 0.37 * w},
                      {"crew", {"reading.crew"}, 0.39 * w, 0.68 * w},
                      {"weather", {"reading.weather"}, 0.70 * w, w}});
  const auto tape = [w](std::size_t number, double left) {
    return Field{fmt::format("tape.{}", number),
                 {"reading.tape", {{"number", base::Count{number}}}},
                 left,
                 left + 0.32 * w,
                 true};
  };
  add_fields(sheets, {tape(1, 0.0), tape(2, 0.34 * w), {"air", {"reading.air"}, 0.68 * w, w}});
  sheets.use(kUnderFields_pt);
}

// Tapes

/// Where each column of the tapes' table stands; `planned` is there only when it is shown.
struct TapeColumns {
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

/// Planned lengths get the room they need; the two readings share what is left.
Table tapes_table(const FormInput& input, double table_pt) {
  const Voice& voice = input.voice;
  const bool show_planned = input.choices.show_planned;
  constexpr double kHold_pt = 52.0;
  constexpr double kTo_pt = 58.0;
  constexpr double kTape_pt = 46.0;
  constexpr double kSkip_pt = 40.0;
  constexpr double kHeldOn_pt = 58.0;
  const double note = show_planned ? 44.0 : 58.0;
  double planned = 0.0;
  if (show_planned) {
    planned = width_pt(voice.text("reading.planned"), kStrong);
    for (const layout::Tape& tape : input.tapes)
      planned = std::max(planned, width_pt(voice.text(Length{tape.length_m})));
    planned += 2.0 * kCellMargin_pt + 2.0;
  }
  const double reading =
      (table_pt - kHold_pt - kTo_pt - kSkip_pt - planned - kTape_pt - kHeldOn_pt - note) / 2.0;
  std::vector<Column> columns{{Fact{"reading.hold"}, kHold_pt},
                              {Fact{"reading.to"}, kTo_pt},
                              {Fact{"reading.skip"}, kSkip_pt}};
  if (show_planned) columns.push_back({Fact{"reading.planned"}, planned});
  columns.insert(columns.end(), {{Fact{"reading.first"}, reading},
                                 {Fact{"reading.second"}, reading},
                                 {Fact{"reading.instrument"}, kTape_pt},
                                 {Fact{"reading.burned"}, kHeldOn_pt},
                                 {Fact{"reading.note"}, note}});
  return {columns, table_pt};
}

/// The tapes, grouped by hold, as the form's input has them; spare rows where the page has room.
class TapeRows {
 public:
  TapeRows(RunningSheets& sheets, const FormInput& input)
      : sheets_(sheets), input_(input), voice_(input.voice) {
    if (input.choices.show_planned) columns_ = {0, 1, 2, 3, 4, 5, 6, 7, 8};
  }

  void add() {
    sheets_.start_table(tapes_table(input_, sheets_.room().width_pt));
    for (const Station& station : grouped(input_.tapes)) add_station(station);
    add_spare_rows();
    sheets_.end_table();
  }

 private:
  [[nodiscard]] Box cell(std::size_t column, At top) const {
    return sheets_.table().cell(column, top, kWritingRow_pt);
  }

  void add_station(const Station& station) {
    for (std::size_t i = 0; i < station.tapes.size(); ++i) {
      const RunningSheets::Row row = sheets_.start_row(kWritingRow_pt);
      Pen pen = sheets_.pen();
      if (i == 0 || row.is_first)
        pen.in_box(cell(columns_.hold, row.top), station.hold, kHoldLabel);
      add_tape(pen, row.top, station.tapes[i]);
      const bool last = i + 1 == station.tapes.size() || !sheets_.has_room(kWritingRow_pt);
      if (last)
        sheets_.rule_off(0.0, kBold_pt);
      else
        sheets_.rule_off(sheets_.table().edge_pt(columns_.to));
    }
  }

  void add_tape(Pen& pen, At top, const layout::Tape& tape) {
    pen.in_box(cell(columns_.to, top), tape.to, kRowLabel);
    if (tape.skip > 0)
      pen.in_box(cell(columns_.skip, top), std::to_string(tape.skip),
                 {.anchor = drawing::Anchor::middle});
    if (input_.choices.show_planned)
      pen.in_box(cell(columns_.planned, top), voice_.text(Length{tape.length_m}));
    add_blanks(pen, top, name_of(tape));
  }

  /// `A-C`; when the same two points come again, `A-C/2`.
  std::string name_of(const layout::Tape& tape) {
    std::string name = fmt::format("{}-{}", tape.from, tape.to);
    const int times = ++times_[name];
    if (times > 1) name += fmt::format("/{}", times);
    return name;
  }

  void add_blanks(Pen& pen, At top, const std::string& row) {
    add_length_blank(pen, fmt::format("reading.{}.1", row), cell(columns_.first, top), voice_);
    add_length_blank(pen, fmt::format("reading.{}.2", row), cell(columns_.second, top), voice_);
    pen.blank("instrument." + row, cell(columns_.instrument, top));
    pen.blank("burned." + row, cell(columns_.burned, top));
    pen.blank("note." + row, cell(columns_.note, top));
  }

  /// A few rows for whatever else is taped, if the page has room.
  void add_spare_rows() {
    constexpr std::size_t kSpareRows = 3;
    for (std::size_t i = 1; i <= kSpareRows && sheets_.has_room(kWritingRow_pt); ++i) {
      const At top = sheets_.start_row(kWritingRow_pt).top;
      Pen pen = sheets_.pen();
      const std::string row = fmt::format("s{}", i);
      pen.blank("hold." + row, cell(columns_.hold, top));
      pen.blank("to." + row, cell(columns_.to, top));
      add_blanks(pen, top, row);
      sheets_.rule_off();
    }
  }

  RunningSheets& sheets_;
  const FormInput& input_;
  const Voice& voice_;
  TapeColumns columns_;
  std::map<std::string, int> times_;
};

// Laser and level: short rows, two to a line of the page

/// A table whose rows stand in two columns: the first half of them left, the second half right.
class DoubleTable {
 public:
  /// `columns` of one half; `rows` in all.
  DoubleTable(RunningSheets& sheets, const std::vector<Column>& columns, std::size_t rows)
      : sheets_(sheets),
        half_columns_(columns.size()),
        rows_(rows),
        lines_((rows + 1) / 2),
        table_(both_halves(columns, sheets.room().width_pt)) {}

  /// Height of head and rows.
  [[nodiscard]] double height_pt() const {
    return kTableHead_pt + static_cast<double>(lines_) * kWritingRow_pt;
  }

  /// Calls `fill(pen, row, cells)` for every row, `cells` those of the half's columns.
  template <class Fill>
  void draw(Fill&& fill) {
    sheets_.start_table(table_);
    for (std::size_t line = 0; line < lines_; ++line) {
      const RunningSheets::Row row = sheets_.start_row(kWritingRow_pt);
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
  /// White between the halves.
  static constexpr double kBetween_pt = 14.0;

  static Table both_halves(const std::vector<Column>& half, double width_pt) {
    double sum = 0.0;
    for (const Column& column : half) sum += column.width_pt;
    std::vector<Column> columns = half;
    columns.push_back({base::Nothing{}, kBetween_pt * 2.0 * sum / (width_pt - kBetween_pt)});
    columns.insert(columns.end(), half.begin(), half.end());
    return {columns, width_pt};
  }

  [[nodiscard]] std::vector<Box> cells(std::size_t half, At top) const {
    std::vector<Box> boxes;
    const std::size_t first = half * (half_columns_ + 1);
    for (std::size_t i = 0; i < half_columns_; ++i)
      boxes.push_back(table_.cell(first + i, top, kWritingRow_pt));
    return boxes;
  }

  void rule_off(Pen& pen) const {
    const Box& room = sheets_.room();
    const double gap = room.x_pt + table_.edge_pt(half_columns_);
    pen.line({room.x_pt, room.y_pt}, {gap, room.y_pt}, kThin_pt);
    pen.line({gap + kBetween_pt, room.y_pt}, {room.right_pt(), room.y_pt}, kThin_pt);
  }

  RunningSheets& sheets_;
  std::size_t half_columns_;
  std::size_t rows_;
  std::size_t lines_;
  Table table_;
};

/// Distances by laser from the center pin.
void add_laser_rows(RunningSheets& sheets, const FormInput& input) {
  constexpr std::size_t kSpareRows = 2;
  const auto corners = layout::corner_labels(input.job.plan.polygon.sides);
  DoubleTable table(sheets,
                    {{Fact{"laser.hold"}, 46.0},
                     {Fact{"laser.to"}, 52.0},
                     {Fact{"laser.first"}, 86.0},
                     {Fact{"laser.second"}, 86.0}},
                    corners.size() + kSpareRows);
  const double width = sheets.room().width_pt;
  sheets.use(std::min(kAbove_pt, sheets.room().height_pt));
  sheets.make_room(kHeadingHeight_pt + sheets.caution_height_pt({"laser.caution"}) +
                   sheets.paragraph_height_pt(Fact{"laser.how"}) + kField_pt + kUnderFields_pt +
                   table.height_pt());
  sheets.add_heading({"laser.heading"});
  sheets.add_caution({"laser.caution"});
  sheets.add_paragraph(Fact{"laser.how"}, kPlain, 0.0);
  add_fields(sheets, {{"laser-name", {"laser.name"}, 0.0, 0.45 * width},
                      {"laser-edge", {"laser.edge"}, 0.48 * width, width}});
  sheets.use(kUnderFields_pt);
  table.draw([&](Pen& pen, std::size_t index, const std::vector<Box>& cells) {
    std::string row;
    if (index < corners.size()) {
      row = fmt::format("{}-{}", layout::kCenterLabel, corners[index]);
      pen.in_box(cells[0], layout::kCenterLabel, kRowLabel);
      pen.in_box(cells[1], corners[index], kRowLabel);
    } else {
      row = fmt::format("s{}", index - corners.size() + 1);
      pen.blank("laser-hold." + row, cells[0]);
      pen.blank("laser-to." + row, cells[1]);
    }
    add_length_blank(pen, fmt::format("laser.{}.1", row), cells[2], input.voice);
    add_length_blank(pen, fmt::format("laser.{}.2", row), cells[3], input.voice);
  });
}

/// Rod readings of every corner from two set-ups, turning points, spare rows.
void add_level_rows(RunningSheets& sheets, const FormInput& input) {
  constexpr std::size_t kSpareRows = 2;
  std::vector<std::string> points = layout::corner_labels(input.job.plan.polygon.sides);
  points.insert(points.end(), {"T1", "T2"});
  const auto set_up = [](std::size_t number) {
    return Column{Fact{"level.set_up", {{"number", base::Count{number}}}}, 100.0};
  };
  DoubleTable table(sheets, {{Fact{"level.point"}, 60.0}, set_up(1), set_up(2)},
                    points.size() + kSpareRows);
  const double width = sheets.room().width_pt;
  sheets.use(std::min(kAbove_pt, sheets.room().height_pt));
  sheets.make_room(kHeadingHeight_pt + sheets.paragraph_height_pt(Fact{"level.how"}) + kField_pt +
                   kUnderFields_pt + table.height_pt());
  sheets.add_heading({"level.heading"});
  sheets.add_paragraph(Fact{"level.how"}, kPlain, 0.0);
  add_fields(sheets, {{"level-name", {"level.name"}, 0.0, 0.45 * width}});
  sheets.use(kUnderFields_pt);
  table.draw([&](Pen& pen, std::size_t index, const std::vector<Box>& cells) {
    std::string row;
    if (index < points.size()) {
      row = points[index];
      pen.in_box(cells[0], row, kRowLabel);
    } else {
      row = fmt::format("s{}", index - points.size() + 1);
      pen.blank("level-point." + row, cells[0]);
    }
    add_length_blank(pen, "level.1." + row, cells[1], input.voice);
    add_length_blank(pen, "level.2." + row, cells[2], input.voice);
  });
}

// The pencil check: equal lengths against each other

void add_check(RunningSheets& sheets, const suspects::PencilCheck& check, const Voice& voice) {
  enum Col : std::size_t { skip, like, planned, longest, shortest, difference, most };
  const At top = sheets.start_row(kWritingRow_pt).top;
  Pen pen = sheets.pen();
  const auto cell = [&](Col column) { return sheets.table().cell(column, top, kWritingRow_pt); };
  const auto blank = [&](Col column, const char* name) {
    add_length_blank(pen, fmt::format("pencil.{}.{}", check.skip, name), cell(column), voice);
  };
  pen.in_box(cell(skip), std::to_string(check.skip), kRowLabel);
  pen.in_box(cell(like), voice.text(base::ReadingName{{check.example.from, check.example.to}}));
  pen.in_box(cell(planned), voice.text(Length{check.planned_m}));
  blank(longest, "longest");
  blank(shortest, "shortest");
  blank(difference, "difference");
  pen.in_box(cell(most), voice.text(rounded_up(check.limit_m, voice.units())), kStrong);
  sheets.rule_off();
}

void add_pencil_check(RunningSheets& sheets, const FormInput& input) {
  const auto checks = suspects::pencil_checks(input.job.plan, input.job.tolerance,
                                              results::default_tape(input.job), input.tapes);
  if (checks.empty()) return;
  const Fact how{"pencil.how", {{"corner", Length{input.job.tolerance.corner_m}}}};
  sheets.use(std::min(kAbove_pt, sheets.room().height_pt));
  sheets.make_room(kHeadingHeight_pt + sheets.paragraph_height_pt(how) + kUnderFields_pt +
                   kTableHead_pt + static_cast<double>(checks.size()) * kWritingRow_pt);
  sheets.add_heading({"pencil.heading"});
  sheets.add_paragraph(how);
  sheets.start_table({{{Fact{"pencil.skip"}, 40.0},
                       {Fact{"pencil.like"}, 68.0},
                       {Fact{"pencil.planned"}, 84.0},
                       {Fact{"pencil.longest"}, 92.0},
                       {Fact{"pencil.shortest"}, 92.0},
                       {Fact{"pencil.difference"}, 84.0},
                       {Fact{"pencil.most"}, 76.0}},
                      sheets.room().width_pt});
  for (const suspects::PencilCheck& check : checks) add_check(sheets, check, input.voice);
  sheets.end_table();
}

}  // namespace

std::vector<Sheet> reading_sheets(const FormInput& input) {
  RunningSheets sheets(SheetKind::read, input.choices.paper, input.voice);
  add_opening(sheets);
  TapeRows(sheets, input).add();
  add_laser_rows(sheets, input);
  add_level_rows(sheets, input);
  add_pencil_check(sheets, input);
  return sheets.taken();
}

}  // namespace stakewright::forms
