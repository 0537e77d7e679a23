// The parts of the reading sheet, each added below the one before.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "running_sheets.hpp"
#include "sheets.hpp"

namespace stakewright::forms {

/// A row of a table that is read and written in: 23 pt, 8.1 mm.
inline constexpr double kWritingRow_pt = 23.0;
static_assert(kWritingRow_pt >= kLeastRow_pt);

inline constexpr Style kRowLabel{
    .size_pt = 13.0, .weight = drawing::Weight::bold, .anchor = drawing::Anchor::middle};
inline constexpr Style kHoldLabel{
    .size_pt = 17.0, .weight = drawing::Weight::bold, .anchor = drawing::Anchor::middle};

/// A length is written here; the units printed in it, so that nobody writes feet where inches go.
void add_length_blank(Pen& pen, const std::string& name, const drawing::Box& cell,
                      base::Units units, const Wording& wording);

/// A label and a line to write on, from `from_pt` to `to_pt` across the room of the sheet.
struct Field {
  std::string name;
  std::string label;
  double from_pt = 0.0;
  double to_pt = 0.0;
  bool checked = false;  ///< with a box to tick when it was checked
};

inline constexpr double kField_pt = 25.0;

/// Fields side by side; uses the room of one line.
void add_fields(RunningSheets& sheets, const std::vector<Field>& fields, const Wording& wording);

/// A row's name from its tapes: `A-C`; when the same two points come again, `A-C/2`.
class RowNames {
 public:
  std::string name_of(const std::string& hold, const std::string& to);

 private:
  std::map<std::string, int> times_;
};

/// The tapes, grouped by hold, as the form's input has them; spare rows where the page has room.
void add_tape_rows(RunningSheets& sheets, const FormInput& input);

/// Distances by laser from the center pin.
void add_laser_rows(RunningSheets& sheets, const FormInput& input);

/// Rod readings of every corner from two set-ups, turning points, spare rows.
void add_level_rows(RunningSheets& sheets, const FormInput& input);

/// Equal lengths against each other: what needs no computer.
void add_pencil_check(RunningSheets& sheets, const FormInput& input);

}  // namespace stakewright::forms
