#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "pen.hpp"
#include "sheets.hpp"
#include "stakewright/forms/reading_rows.hpp"
#include "table.hpp"

namespace stakewright::forms {
namespace {

using drawing::At;
using drawing::Box;

constexpr double kRow_pt = 23.0;
static_assert(kRow_pt >= kLeastRow_pt);
constexpr double kField_pt = 25.0;
constexpr std::size_t kSpareRows = 3;
constexpr Style kHoldLabel{
    .size_pt = 17.0, .weight = drawing::Weight::bold, .anchor = drawing::Anchor::middle};
constexpr Style kToLabel{
    .size_pt = 13.0, .weight = drawing::Weight::bold, .anchor = drawing::Anchor::middle};

/// Where each column of the reading table stands; `planned` is there only when it is shown.
struct Columns {
  std::size_t hold = 0;
  std::size_t to = 1;
  std::size_t planned = 2;
  std::size_t first = 2;
  std::size_t second = 3;
  std::size_t instrument = 4;
  std::size_t burned = 5;
  std::size_t note = 6;
};

Columns columns_of(bool show_planned) {
  if (!show_planned) return {};
  return {0, 1, 2, 3, 4, 5, 6, 7};
}

/// Planned lengths get the room they need; the two readings share what is left.
Table reading_table(const FormInput& input, double width_pt_of_table) {
  const Wording& wording = input.wording;
  const bool show_planned = input.choices.show_planned;
  constexpr double kHold_pt = 52.0;
  constexpr double kTo_pt = 58.0;
  constexpr double kTape_pt = 46.0;
  constexpr double kHeldOn_pt = 58.0;
  const double note = show_planned ? 52.0 : 84.0;
  double planned = 0.0;
  if (show_planned) {
    planned = width_pt(wording.text("reading.planned"), kStrong);
    for (const layout::Tape& tape : input.tapes)
      planned =
          std::max(planned, width_pt(base::text_from_length(tape.length_m, input.choices.units)));
    planned += 2.0 * kCellMargin_pt + 2.0;
  }
  const double reading =
      (width_pt_of_table - kHold_pt - kTo_pt - planned - kTape_pt - kHeldOn_pt - note) / 2.0;
  std::vector<Column> columns{{wording.text("reading.hold"), kHold_pt},
                              {wording.text("reading.to"), kTo_pt}};
  if (show_planned) columns.push_back({wording.text("reading.planned"), planned});
  columns.insert(columns.end(), {{wording.text("reading.first"), reading},
                                 {wording.text("reading.second"), reading},
                                 {wording.text("reading.instrument"), kTape_pt},
                                 {wording.text("reading.burned"), kHeldOn_pt},
                                 {wording.text("reading.note"), note}});
  return {columns, width_pt_of_table};
}

/// The units printed in a blank, so that nobody writes feet where inches go.
void add_reading_blank(Pen& pen, const std::string& name, const Box& cell, base::Units units,
                       const Wording& wording) {
  pen.blank(name, cell);
  const double y = cell.bottom_pt() - 6.0;
  const auto unit = [&](double right, const char* key) {
    pen.text({right, y}, wording.text(key), kToTheRight);
  };
  const double end = cell.right_pt() - 4.0;
  switch (units) {
    case base::Units::feet_inches:
      unit(cell.x_pt + 0.40 * cell.width_pt, "units.foot");
      unit(end, "units.inch");
      break;
    case base::Units::millimetres:
      unit(end, "units.millimetre");
      break;
    case base::Units::metres:
      unit(end, "units.metre");
      break;
  }
}

class ReadingSheets {
 public:
  explicit ReadingSheets(const FormInput& input)
      : input_(input), wording_(input.wording), columns_(columns_of(input.choices.show_planned)) {
    start_sheet();
  }

  std::vector<Sheet> sheets() {
    table_ = reading_table(input_, room_.width_pt);
    add_opening();
    start_table();
    for (const Station& station : by_station(input_.job.plan, input_.tapes)) add_station(station);
    add_spare_rows();
    end_table();
    return std::move(sheets_);
  }

 private:
  [[nodiscard]] drawing::Page& page() { return sheets_.back().page; }

  void start_sheet() {
    sheets_.push_back(blank_sheet(SheetKind::read, input_.choices.paper));
    room_ = body(page());
  }

  void use(double height_pt) {
    room_.y_pt += height_pt;
    room_.height_pt -= height_pt;
  }

  void add_opening() {
    room_ = under_caution(page(), room_, wording_.text("reading.caution"));
    Pen pen(page());
    use(pen.paragraph({room_.x_pt, room_.y_pt}, room_.width_pt, wording_.text("reading.how")));
    const double w = room_.width_pt;
    add_field({0.0, 0.24 * w}, "date", wording_.text("reading.date"), false);
    add_field({0.26 * w, 0.64 * w}, "crew", wording_.text("reading.crew"), false);
    add_field({0.66 * w, w}, "weather", wording_.text("reading.weather"), false);
    use(kField_pt);
    for (const int number : {1, 2}) {
      const std::string label =
          wording_.filled("reading.tape", {{"number", std::to_string(number)}});
      const double left = number == 1 ? 0.0 : 0.34 * w;
      add_field({left, left + 0.32 * w}, fmt::format("tape.{}", number), label, true);
    }
    add_field({0.68 * w, w}, "air", wording_.text("reading.air"), false);
    use(kField_pt + 8.0);
  }

  struct Span {
    double from_pt = 0.0;
    double to_pt = 0.0;
  };

  /// A label and a line to write on; with a box to tick when the tape was checked.
  void add_field(const Span& span, const std::string& name, const std::string& label,
                 bool checked) {
    Pen pen(page());
    const double y = room_.y_pt + kField_pt - 4.0;
    const double left = room_.x_pt + span.from_pt;
    double right = room_.x_pt + span.to_pt;
    pen.text({left, y}, label);
    if (checked) {
      const Box box{right - 15.0, room_.y_pt + 9.0, 15.0, 15.0};
      pen.tick(name + ".checked", box);
      pen.text({box.x_pt - 4.0, y}, wording_.text("reading.checked"), kToTheRight);
      right = box.x_pt - 9.0 - width_pt(wording_.text("reading.checked"));
    }
    const double from = left + width_pt(label) + 5.0;
    pen.line({from, y + 2.0}, {right, y + 2.0}, kRule_pt);
    pen.blank(name, {from, room_.y_pt + 2.0, right - from, kField_pt - 4.0});
  }

  void start_table() {
    Pen pen(page());
    head_ = {room_.x_pt, room_.y_pt};
    use(table_.draw_head(pen, head_) - head_.y_pt);
  }

  void end_table() {
    Pen pen(page());
    table_.draw_uprights(pen, head_, room_.y_pt);
  }

  /// True when the row begins a new page.
  bool make_room() {
    if (room_.height_pt >= kRow_pt) return false;
    end_table();
    start_sheet();
    start_table();
    return true;
  }

  void add_station(const Station& station) {
    for (std::size_t i = 0; i < station.tapes.size(); ++i) {
      const bool new_page = make_room();
      const At top{room_.x_pt, room_.y_pt};
      Pen pen(page());
      if (i == 0 || new_page)
        pen.in_box(table_.cell(columns_.hold, top, kRow_pt), station.hold, kHoldLabel);
      add_row(pen, top, station.tapes[i]);
      use(kRow_pt);
      const bool last = i + 1 == station.tapes.size() || room_.height_pt < kRow_pt;
      const double left = last ? room_.x_pt : room_.x_pt + table_.edge_pt(columns_.to);
      pen.line({left, room_.y_pt}, {room_.right_pt(), room_.y_pt}, last ? kBold_pt : kThin_pt);
    }
  }

  void add_row(Pen& pen, At top, const layout::Tape& tape) {
    pen.in_box(table_.cell(columns_.to, top, kRow_pt), tape.to, kToLabel);
    if (input_.choices.show_planned) {
      pen.in_box(table_.cell(columns_.planned, top, kRow_pt),
                 base::text_from_length(tape.length_m, input_.choices.units));
    }
    add_blanks(pen, top, row_name(tape));
  }

  void add_blanks(Pen& pen, At top, const std::string& row) {
    const base::Units units = input_.choices.units;
    add_reading_blank(pen, fmt::format("reading.{}.1", row),
                      table_.cell(columns_.first, top, kRow_pt), units, wording_);
    add_reading_blank(pen, fmt::format("reading.{}.2", row),
                      table_.cell(columns_.second, top, kRow_pt), units, wording_);
    pen.blank("instrument." + row, table_.cell(columns_.instrument, top, kRow_pt));
    pen.blank("burned." + row, table_.cell(columns_.burned, top, kRow_pt));
    pen.blank("note." + row, table_.cell(columns_.note, top, kRow_pt));
  }

  /// `A-C`; when the same two points come again, `A-C/2`.
  std::string row_name(const layout::Tape& tape) {
    std::string name = fmt::format("{}-{}", tape.from, tape.to);
    const int times = ++times_[name];
    if (times > 1) name += fmt::format("/{}", times);
    return name;
  }

  /// A few rows for whatever else is taped, if the page has room.
  void add_spare_rows() {
    Pen pen(page());
    for (std::size_t i = 1; i <= kSpareRows && room_.height_pt >= kRow_pt; ++i) {
      const At top{room_.x_pt, room_.y_pt};
      const std::string row = fmt::format("s{}", i);
      pen.blank("hold." + row, table_.cell(columns_.hold, top, kRow_pt));
      pen.blank("to." + row, table_.cell(columns_.to, top, kRow_pt));
      add_blanks(pen, top, row);
      use(kRow_pt);
      pen.line({room_.x_pt, room_.y_pt}, {room_.right_pt(), room_.y_pt}, kThin_pt);
    }
  }

  const FormInput& input_;
  const Wording& wording_;
  Columns columns_;
  std::vector<Sheet> sheets_;
  Box room_;  ///< what is left of the page
  Table table_{{{"", 1.0}}, 1.0};
  At head_;
  std::map<std::string, int> times_;
};

}  // namespace

std::vector<Sheet> reading_sheets(const FormInput& input) { return ReadingSheets(input).sheets(); }

}  // namespace stakewright::forms
