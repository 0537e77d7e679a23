#include "filled_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::forms {
namespace {

using job::Written;
using job::WrittenRow;

bool is_number(std::string_view text) {
  return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

std::vector<std::string> points_of(const job::Job& job) {
  std::vector<std::string> points = layout::corner_labels(job.plan.polygon.sides);
  points.emplace_back(layout::kCenterLabel);
  for (const layout::Pin& pin : job.plan.pins) points.push_back(pin.name);
  return points;
}

/// "13 10 1/4" as it is written on the form, between the marks for feet and for inches, with the
/// dash that says which is which.  "10 1/4" stays: it may be inches alone.
std::string with_dash_after_feet(const std::string& text) {
  const std::size_t space = text.find(' ');
  if (space == std::string::npos || !is_number(text.substr(0, space))) return text;
  const std::string inches = text.substr(space + 1);
  const bool starts_inches = !inches.empty() && inches.front() >= '0' && inches.front() <= '9';
  const std::size_t slash = inches.find('/');
  const bool fraction_alone = slash != std::string::npos && is_number(inches.substr(0, slash));
  return starts_inches && !fraction_alone ? text.substr(0, space) + '-' + inches : text;
}

/// `reading.A-C.1` in its parts: what is written there, where, which one.
struct BlankParts {
  std::string what;
  std::string row;
  std::string which;
};

BlankParts parts_of(const std::string& blank) {
  const std::size_t first = blank.find('.');
  const std::size_t last = blank.rfind('.');
  if (first == std::string::npos || first == last) return {blank, "", ""};
  return {blank.substr(0, first), blank.substr(first + 1, last - first - 1),
          blank.substr(last + 1)};
}

/// `s1`: a row whose points are written in by hand.
bool is_spare(const std::string& row) { return row.starts_with('s') && is_number(row.substr(1)); }

class Rows {
 public:
  Rows(const BlankValues& values, const JobRecord& record, const job::Job& job)
      : values_(values), record_(record), points_(points_of(job)) {}

  FilledRows filled() {
    for (const std::string& blank : record_.blanks)
      if (!values_.text(blank).empty()) take(blank);
    if (of_first_tape_ > 0)
      result_.remarks.push_back(
          fmt::format("{} of the readings name no tape and are taken as pulled with tape 1, {}",
                      of_first_tape_, base::in_quotes(values_.text("tape.1"))));
    return std::move(result_);
  }

 private:
  void take(const std::string& blank) {
    const BlankParts parts = parts_of(blank);
    if (parts.what == "reading") {
      add(blank, tape_row(blank, parts.row));
    } else if (parts.what == "laser") {
      add(blank, laser_row(blank, parts.row));
    } else if (parts.what == "level") {
      add(blank, level_row(blank, parts));
    }
  }

  void add(const std::string& blank, WrittenRow row) {
    row["reading"] = length_in(blank);
    row["round"] = values_.written("round");
    result_.rows.push_back(std::move(row));
  }

  WrittenRow tape_row(const std::string& blank, const std::string& row) {
    WrittenRow written = is_spare(row) ? WrittenRow{{"from", values_.written("hold." + row)},
                                                    {"to", values_.written("to." + row)}}
                                       : ends_of(row, blank);
    written["burned"] = length_in("burned." + row);
    written["note"] = values_.written("note." + row);
    if (const auto instrument = tape_of(row)) written["instrument"] = *instrument;
    return written;
  }

  [[nodiscard]] WrittenRow laser_row(const std::string& blank, const std::string& row) const {
    WrittenRow written = is_spare(row) ? WrittenRow{{"from", values_.written("laser-hold." + row)},
                                                    {"to", values_.written("laser-to." + row)}}
                                       : ends_of(row, blank);
    written["kind"] = {"laser", "field " + blank};
    written["instrument"] = values_.written("laser-name");
    return written;
  }

  /// `level.1.C`: the rod at C, read from set-up 1.
  [[nodiscard]] WrittenRow level_row(const std::string& blank, const BlankParts& parts) const {
    const std::string place = "field " + blank;
    const std::string& label = parts.which;
    return {
        {"kind", {"level", place}},
        {"from", {"L" + parts.row, place}},
        {"to", is_spare(label) ? values_.written("level-point." + label) : Written{label, place}},
        {"instrument", values_.written("level-name")}};
  }

  [[nodiscard]] Written length_in(const std::string& blank) const {
    Written written = values_.written(blank);
    if (record_.units == base::Units::feet_inches)
      written.text = with_dash_after_feet(written.text);
    return written;
  }

  [[nodiscard]] WrittenRow ends_of(const std::string& row, const std::string& blank) const {
    WrittenRow ends = ends_in(row, blank);
    // `A-C/2` is the same two points asked for again.
    const std::size_t slash = row.rfind('/');
    if (ends.empty() && slash != std::string::npos && is_number(row.substr(slash + 1)))
      ends = ends_in(row.substr(0, slash), blank);
    if (ends.empty()) refuse_ends(blank);
    return ends;
  }

  /// The two points of `A-C`; none when they are not points of the job.  A pin's name may have a
  /// dash of its own.
  [[nodiscard]] WrittenRow ends_in(const std::string& pair, const std::string& blank) const {
    WrittenRow ends;
    for (std::size_t dash = pair.find('-'); dash != std::string::npos;
         dash = pair.find('-', dash + 1)) {
      const std::string from = pair.substr(0, dash);
      const std::string to = pair.substr(dash + 1);
      if (!is_point(from) || !is_point(to)) continue;
      if (!ends.empty()) refuse_ends(blank);
      ends = {{"from", {from, "field " + blank}}, {"to", {to, "field " + blank}}};
    }
    return ends;
  }

  [[noreturn]] static void refuse_ends(const std::string& blank) {
    throw base::InputError(
        fmt::format("field {}: it does not say between which two points; accepted: the form's own "
                    "reading blanks, and pins whose names have no dash",
                    base::in_quotes(blank)));
  }

  [[nodiscard]] bool is_point(const std::string& label) const {
    return std::find(points_.begin(), points_.end(), label) != points_.end();
  }

  /// What the row names; a number is a tape named at the head of the sheet, and without any
  /// name it is tape 1.
  std::optional<Written> tape_of(const std::string& row) {
    const std::string blank = "instrument." + row;
    const std::string& text = values_.text(blank);
    if (text.empty()) {
      if (values_.text("tape.1").empty()) return std::nullopt;
      if (!values_.text("tape.2").empty()) ++of_first_tape_;
      return values_.written("tape.1");
    }
    const std::string at_head = "tape." + text;
    if (!is_number(text) || !values_.has(at_head)) return values_.written(blank);
    if (values_.text(at_head).empty())
      throw base::InputError(fmt::format(
          "field {}: read {}, and field {} is empty; accepted: an instrument's name, or "
          "the number of one named there",
          blank, base::in_quotes(text), at_head));
    return values_.written(at_head);
  }

  const BlankValues& values_;
  const JobRecord& record_;
  std::vector<std::string> points_;
  std::size_t of_first_tape_ = 0;
  FilledRows result_;
};

}  // namespace

FilledRows filled_rows_of(const BlankValues& values, const JobRecord& record, const job::Job& job) {
  return Rows(values, record, job).filled();
}

}  // namespace stakewright::forms
