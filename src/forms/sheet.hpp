// What every sheet of the form has, paper, margins and head, and what fills it from the top down
// over as many pages as it takes: words, tables, blanks.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "pen.hpp"
#include "stakewright/drawing/page.hpp"
#include "stakewright/forms/field_form.hpp"

namespace stakewright::forms {

using base::Fact;

/// Left free at the top edge, where a clipboard's clip bites.
inline constexpr double kClip_pt = 24.0 * drawing::kPointsPerMillimeter;
/// Left free at the other edges; laser printers need about a third of it.
inline constexpr double kMargin_pt = 14.0 * drawing::kPointsPerMillimeter;

/// The kinds of sheet, in the order of the day.
enum class SheetKind { plan = 1, stake = 2, read = 3, move = 4 };

struct Sheet {
  SheetKind kind = SheetKind::plan;
  drawing::Page page;
};

Sheet blank_sheet(SheetKind kind, Paper paper);

/// What is left below the head.
drawing::Box body(const drawing::Page& page);

/// The sheets as pages, with their heads now that it is known how many there are.
std::vector<drawing::Page> finished(std::vector<Sheet> sheets, const job::Job& job,
                                    const Voice& voice);

/// The units by name, as a head says them.
Fact units_name(base::Units units);

/// The job's fingerprint, as a head says it.
Fact fingerprint_note(const job::Job& job);

/// A name that somebody chose, short enough for the middle of a sentence.
base::Name shortened(const std::string& name);

/// Limits in whole steps of what is written in a blank, 1/16 in or 1 mm, to the side on which good
/// work passes.  A length that is whole but for the last digits stays as it is.
base::Length rounded_up(double length_m, base::Units units);
base::Length rounded_down(double length_m, base::Units units);

/// What the sheets of the day are made from.
struct FormInput {
  const job::Job& job;
  const results::LayoutResult& layout;
  const std::vector<layout::Tape>& tapes;
  const Voice& voice;
  const FormChoices& choices;
};

std::vector<Sheet> staking_sheets(const FormInput& input);
std::vector<Sheet> reading_sheets(const FormInput& input);

/// Least height of a row somebody writes in: 8 mm.
inline constexpr double kLeastRow_pt = 8.0 * drawing::kPointsPerMillimeter;
/// A row of a table that is read and written in: 23 pt, 8.1 mm.
inline constexpr double kWritingRow_pt = 23.0;
static_assert(kWritingRow_pt >= kLeastRow_pt);

inline constexpr Style kRowLabel{
    .size_pt = 13.0, .weight = drawing::Weight::bold, .anchor = drawing::Anchor::middle};

struct Column {
  base::Value heading;
  double width_pt = 50.0;
  bool with_next = false;  ///< no rule between this column and the next: the two are read together
};

/// A table that is written in: columns, a head, rows as high as a pencil needs.
class Table {
 public:
  /// Stretches or shrinks the columns together to fill `width_pt`.
  Table(std::vector<Column> columns, double width_pt);

  /// Draws the head at `top`; returns where the first row begins.
  double draw_head(Pen& pen, drawing::At top, const Voice& voice) const;

  /// The cell of a column in a row that begins at `top`.
  [[nodiscard]] drawing::Box cell(std::size_t column, drawing::At top, double height_pt) const;

  [[nodiscard]] double width_pt() const { return edges_.back(); }
  [[nodiscard]] double edge_pt(std::size_t column) const { return edges_[column]; }

  /// Upright rules from the top of the head to the last row.
  void draw_uprights(Pen& pen, drawing::At top, double bottom_pt) const;

 private:
  std::vector<Column> columns_;
  std::vector<double> edges_;  ///< from the left edge: 0 … width
};

inline constexpr double kTableHead_pt = 18.0;

class RunningSheets {
 public:
  RunningSheets(SheetKind kind, Paper paper, const Voice& voice);

  [[nodiscard]] const Voice& voice() const { return voice_; }
  [[nodiscard]] drawing::Page& page() { return sheets_.back().page; }
  [[nodiscard]] Pen pen() { return Pen(page()); }

  /// What is left of the page.
  [[nodiscard]] const drawing::Box& room() const { return room_; }
  [[nodiscard]] drawing::At corner() const { return {room_.x_pt, room_.y_pt}; }
  [[nodiscard]] bool has_room(double height_pt) const { return room_.height_pt >= height_pt; }
  void use(double height_pt);

  /// A new sheet unless this one has so much room left, or is empty.
  void make_room(double height_pt);

  /// In a heavy frame.
  void add_caution(const Fact& words);
  [[nodiscard]] double caution_height_pt(const Fact& words) const;
  void add_heading(const Fact& words);
  void add_paragraph(const base::Value& words, const Style& style = kPlain,
                     double below_pt = kUnderParagraph_pt);
  [[nodiscard]] double paragraph_height_pt(const base::Value& words) const;

  /// Where a row begins, and whether it is the first below a head.
  struct Row {
    drawing::At top;
    bool is_first = false;
  };
  void start_table(const Table& table);
  /// Goes on below a new head on a new sheet when this one is full.
  Row start_row(double height_pt);
  /// A thin line below the row, or below its columns from so far right.
  void rule_off(double from_pt = 0.0, double width_pt = kThin_pt);
  void end_table();
  [[nodiscard]] const Table& table() const { return table_; }

  std::vector<Sheet> taken() { return std::move(sheets_); }

 private:
  static constexpr double kUnderParagraph_pt = 6.0;

  void start_sheet();
  void draw_table_head();

  SheetKind kind_;
  Paper paper_;
  const Voice& voice_;
  std::vector<Sheet> sheets_;
  drawing::Box room_;
  Table table_{{{base::Nothing{}, 1.0}}, 1.0};
  drawing::At head_;
  bool below_head_ = false;
};

/// Height of `add_heading`.
inline constexpr double kHeadingHeight_pt = 20.0;

/// A length is written here; the units printed in it, so that nobody writes feet where inches go.
void add_length_blank(Pen& pen, const std::string& name, const drawing::Box& cell,
                      const Voice& voice);

/// A label and a line to write on, from `from_pt` to `to_pt` across the room of the sheet.
struct Field {
  std::string name;
  Fact label;
  double from_pt = 0.0;
  double to_pt = 0.0;
  bool checked = false;  ///< with a box to tick when it was checked
};

inline constexpr double kField_pt = 25.0;

/// Fields side by side; uses the room of one line.
void add_fields(RunningSheets& sheets, const std::vector<Field>& fields);

}  // namespace stakewright::forms
