#include "sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "stakewright/forms/job_record.hpp"

namespace stakewright::forms {
namespace {

using drawing::At;
using drawing::Box;

constexpr double kHead_pt = 36.0;
constexpr double kUnderHead_pt = 10.0;
constexpr double kTabHeight_pt = 29.0;
constexpr Style kTabNumber{
    .size_pt = 20.0, .weight = drawing::Weight::bold, .ink = drawing::Ink::white};
constexpr Style kTabName{
    .size_pt = 13.0, .weight = drawing::Weight::bold, .ink = drawing::Ink::white};
constexpr Style kHeading{.size_pt = 13.0, .weight = drawing::Weight::bold};
constexpr double kCautionPad_pt = 5.0;
constexpr double kUnderCaution_pt = 8.0;

Fact tab_name(SheetKind kind) {
  switch (kind) {
    case SheetKind::stake:
      return {"staking.tab"};
    case SheetKind::read:
      return {"reading.tab"};
    case SheetKind::move:
      return {"moving.tab"};
    case SheetKind::plan:
      break;
  }
  return {"plan.tab"};
}

/// White on black, found by a wet thumb; returns its right edge.
double add_tab(Pen& pen, At corner, SheetKind kind, const std::string& name) {
  const std::string number = std::to_string(static_cast<int>(kind));
  const double number_width = width_pt(number, kTabNumber);
  const double width = 10.0 + number_width + 8.0 + width_pt(name, kTabName) + 12.0;
  pen.black_box({corner.x_pt, corner.y_pt, width, kTabHeight_pt});
  const double baseline =
      corner.y_pt + (kTabHeight_pt + drawing::cap_height_pt(kTabNumber.size_pt)) / 2.0;
  pen.text({corner.x_pt + 10.0, baseline}, number, kTabNumber);
  pen.text({corner.x_pt + 10.0 + number_width + 8.0, baseline}, name, kTabName);
  return corner.x_pt + width;
}

/// What all heads of a form say.
struct HeadWords {
  std::string title;
  std::string units;
  std::string fingerprint;
};

void add_head(Sheet& sheet, const HeadWords& words, const std::string& tab,
              const std::string& count) {
  Pen pen(sheet.page);
  const double right = sheet.page.width_pt - kMargin_pt;
  const double first = kClip_pt + 12.0;
  const double second = first + 15.0;
  pen.text({right, first}, count, kToTheRight);
  pen.text({right, second}, words.fingerprint, kToTheRight);
  const double reserved = std::max(width_pt(count), width_pt(words.fingerprint)) + 12.0;
  const double left = add_tab(pen, {kMargin_pt, kClip_pt}, sheet.kind, tab) + 10.0;
  pen.cut_text({left, first}, right - reserved - left, words.title, kHeading);
  pen.cut_text({left, second}, right - reserved - left, words.units);
  const double rule = kClip_pt + kHead_pt;
  pen.line({kMargin_pt, rule}, {right, rule}, 2.0);
  sheet.page.title = fmt::format("{} - {} - {}", words.title, tab, count);
}

/// Rounding errors of the sums before it, in steps: nobody reads a millionth of a step.
constexpr double kSlack_steps = 1e-6;

double step_m(base::Units units) {
  return units == base::Units::feet_inches ? 0.0254 / 16.0 : 0.001;
}

double caution_width_pt(double width_pt) { return width_pt - 2.0 * kCautionPad_pt - 4.0; }

void add_field(RunningSheets& sheets, const Field& field) {
  Pen pen = sheets.pen();
  const Box& room = sheets.room();
  const double y = room.y_pt + kField_pt - 4.0;
  const double left = room.x_pt + field.from_pt;
  double right = room.x_pt + field.to_pt;
  const std::string label = sheets.voice().text(field.label);
  pen.text({left, y}, label);
  if (field.checked) {
    const std::string checked = sheets.voice().text("reading.checked");
    const Box box{right - 15.0, room.y_pt + 9.0, 15.0, 15.0};
    pen.tick(field.name + ".checked", box);
    pen.text({box.x_pt - 4.0, y}, checked, kToTheRight);
    right = box.x_pt - 9.0 - width_pt(checked);
  }
  const double from = left + width_pt(label) + 5.0;
  pen.line({from, y + 2.0}, {right, y + 2.0}, kRule_pt);
  pen.blank(field.name, {from, room.y_pt + 2.0, right - from, kField_pt - 4.0});
}

}  // namespace

Sheet blank_sheet(SheetKind kind, Paper paper) {
  Sheet sheet;
  sheet.kind = kind;
  // ANSI/ASME Y14.1 size A (US Letter), 8.5 by 11 in; ISO 216 A4, 210 by 297 mm.
  const bool letter = paper == Paper::letter;
  sheet.page.width_pt =
      letter ? 8.5 * drawing::kPointsPerInch : 210.0 * drawing::kPointsPerMillimeter;
  sheet.page.height_pt =
      letter ? 11.0 * drawing::kPointsPerInch : 297.0 * drawing::kPointsPerMillimeter;
  return sheet;
}

Box body(const drawing::Page& page) {
  const double top = kClip_pt + kHead_pt + kUnderHead_pt;
  return {kMargin_pt, top, page.width_pt - 2.0 * kMargin_pt, page.height_pt - kMargin_pt - top};
}

std::vector<drawing::Page> finished(std::vector<Sheet> sheets, const job::Job& job,
                                    const Voice& voice) {
  const HeadWords words{job.title, voice.text(units_name(voice.units())),
                        voice.text(fingerprint_note(job))};
  std::vector<drawing::Page> pages;
  for (Sheet& sheet : sheets) {
    const Fact count{
        "head.page",
        {{"page", base::Count{pages.size() + 1}}, {"pages", base::Count{sheets.size()}}}};
    add_head(sheet, words, voice.text(tab_name(sheet.kind)), voice.text(count));
    pages.push_back(std::move(sheet.page));
  }
  return pages;
}

Fact units_name(base::Units units) {
  switch (units) {
    case base::Units::feet_inches:
      return {"units.feet_inches"};
    case base::Units::meters:
      return {"units.meters"};
    case base::Units::millimeters:
      break;
  }
  return {"units.millimeters"};
}

Fact fingerprint_note(const job::Job& job) {
  return {"head.fingerprint", {{"fingerprint", base::Name{fingerprint(job.plan)}}}};
}

base::Name shortened(const std::string& name) {
  constexpr std::size_t kMost_bytes = 24;
  if (name.size() <= kMost_bytes) return {name};
  std::size_t end = kMost_bytes;
  // Not in the middle of a character: UTF-8 goes on with bytes 10xxxxxx (RFC 3629, section 3).
  while (end > 0 && (static_cast<unsigned char>(name[end]) & 0xC0U) == 0x80U) --end;
  return {name.substr(0, end) + "…"};
}

base::Length rounded_up(double length_m, base::Units units) {
  return {std::ceil(length_m / step_m(units) - kSlack_steps) * step_m(units)};
}

base::Length rounded_down(double length_m, base::Units units) {
  return {std::floor(length_m / step_m(units) + kSlack_steps) * step_m(units)};
}

Table::Table(std::vector<Column> columns, double width_pt) : columns_(std::move(columns)) {
  const double sum =
      std::accumulate(columns_.begin(), columns_.end(), 0.0,
                      [](double so_far, const Column& column) { return so_far + column.width_pt; });
  edges_.push_back(0.0);
  for (const Column& column : columns_)
    edges_.push_back(edges_.back() + column.width_pt * width_pt / sum);
}

double Table::draw_head(Pen& pen, At top, const Voice& voice) const {
  const double bottom = top.y_pt + kTableHead_pt;
  for (std::size_t i = 0; i < columns_.size(); ++i)
    pen.in_box(cell(i, top, kTableHead_pt), voice.text(columns_[i].heading), kStrong);
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

RunningSheets::RunningSheets(SheetKind kind, Paper paper, const Voice& voice)
    : kind_(kind), paper_(paper), voice_(voice) {
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

void RunningSheets::add_caution(const Fact& words) {
  const double used = caution_height_pt(words);
  pen().paragraph({room_.x_pt + kCautionPad_pt + 2.0, room_.y_pt + kCautionPad_pt},
                  caution_width_pt(room_.width_pt), voice_.text(words), kStrong);
  pen().box({room_.x_pt, room_.y_pt, room_.width_pt, used - kUnderCaution_pt}, 2.0);
  use(used);
}

double RunningSheets::caution_height_pt(const Fact& words) const {
  return forms::paragraph_height_pt(caution_width_pt(room_.width_pt), voice_.text(words), kStrong) +
         2.0 * kCautionPad_pt + kUnderCaution_pt;
}

void RunningSheets::add_heading(const Fact& words) {
  pen().cut_text({room_.x_pt, room_.y_pt + kHeading.size_pt}, room_.width_pt, voice_.text(words),
                 kHeading);
  use(kHeadingHeight_pt);
}

void RunningSheets::add_paragraph(const base::Value& words, const Style& style, double below_pt) {
  use(pen().paragraph(corner(), room_.width_pt, voice_.text(words), style) + below_pt);
}

double RunningSheets::paragraph_height_pt(const base::Value& words) const {
  return forms::paragraph_height_pt(room_.width_pt, voice_.text(words));
}

void RunningSheets::start_table(const Table& table) {
  table_ = table;
  draw_table_head();
}

void RunningSheets::draw_table_head() {
  Pen pen(page());
  head_ = corner();
  use(table_.draw_head(pen, head_, voice_) - head_.y_pt);
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

void RunningSheets::rule_off(double from_pt, double width_pt) {
  pen().line({room_.x_pt + from_pt, room_.y_pt}, {room_.right_pt(), room_.y_pt}, width_pt);
}

void RunningSheets::end_table() {
  Pen pen(page());
  table_.draw_uprights(pen, head_, room_.y_pt);
}

void add_length_blank(Pen& pen, const std::string& name, const Box& cell, const Voice& voice) {
  pen.blank(name, cell);
  const auto unit = [&](double right, const Fact& words) {
    pen.text({right, cell.bottom_pt() - 6.0}, voice.text(words), kToTheRight);
  };
  const double end = cell.right_pt() - 4.0;
  switch (voice.units()) {
    case base::Units::feet_inches:
      unit(cell.x_pt + 0.40 * cell.width_pt, {"units.foot"});
      unit(end, {"units.inch"});
      break;
    case base::Units::millimeters:
      unit(end, {"units.millimeter"});
      break;
    case base::Units::meters:
      unit(end, {"units.meter"});
      break;
  }
}

void add_fields(RunningSheets& sheets, const std::vector<Field>& fields) {
  for (const Field& field : fields) add_field(sheets, field);
  sheets.use(kField_pt);
}

}  // namespace stakewright::forms
