// What stands in the blanks of a filled form, as readings.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/fields/filled.hpp"
#include "stakewright/forms/form_file.hpp"
#include "stakewright/forms/job_record.hpp"

namespace stakewright::forms {
namespace {

using base::Fact;
using base::InputError;
using base::Name;
using base::Quoted;
using job::Written;
using job::WrittenRow;

Fact field(base::Value name) { return {"errors.field", {{"name", std::move(name)}}}; }

// Texts as they were typed

/// Spaces that do not break, as text copied from elsewhere has them, in UTF-8.
constexpr std::array<std::string_view, 3> kOtherSpaces{"\u00A0", "\u2009", "\u202F"};

/// Bytes of space at the front of the text.
std::size_t space_at(std::string_view text) {
  if (std::string_view(" \t\r\n").find(text.front()) != std::string_view::npos) return 1;
  for (const std::string_view space : kOtherSpaces)
    if (text.starts_with(space)) return space.size();
  return 0;
}

/// Line ends and runs of spaces made one space, none at the ends.
std::string tidied(std::string_view text) {
  std::string tidy;
  bool gap = false;
  while (!text.empty()) {
    if (const std::size_t space = space_at(text)) {
      gap = !tidy.empty();
      text.remove_prefix(space);
      continue;
    }
    if (gap) tidy += ' ';
    gap = false;
    tidy += text.front();
    text.remove_prefix(1);
  }
  return tidy;
}

/// What stands in the blanks of a form, by the blanks' names.
class BlankValues {
 public:
  /// Throws InputError for a field that is none of `blanks` and holds something.
  BlankValues(const fields::Filled& filled, const std::vector<std::string>& blanks)
      : blanks_(blanks.begin(), blanks.end()) {
    for (const fields::Field& one : filled.fields) {
      std::string text = tidied(one.text);
      if (text.empty()) continue;
      if (!has(one.blank))
        throw InputError(Fact{"errors.foreign_field", {{"read", Quoted{text}}}})
            .at(field(Quoted{one.blank}));
      texts_.emplace(one.blank, std::move(text));
    }
  }

  /// Whether the form has such a blank, filled in or not.
  [[nodiscard]] bool has(const std::string& blank) const { return blanks_.count(blank) > 0; }

  /// Empty when nothing is there.
  [[nodiscard]] std::string text(const std::string& blank) const {
    const auto found = texts_.find(blank);
    return found == texts_.end() ? "" : found->second;
  }

  /// The same with its place for messages.
  [[nodiscard]] Written written(const std::string& blank) const {
    return {text(blank), "field " + blank};
  }

 private:
  std::map<std::string, std::string, std::less<>> texts_;
  std::set<std::string, std::less<>> blanks_;
};

// Blanks that belong together as one reading

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

/// One row for each reading blank that holds something, in the order of the form's blanks.
class Rows {
 public:
  Rows(const BlankValues& values, const JobRecord& record, const job::Job& job)
      : values_(values), record_(record), points_(points_of(job)) {}

  /// Throws InputError with the field's name.
  void take_into(FormReadings& result) {
    for (const std::string& blank : record_.blanks)
      if (!values_.text(blank).empty()) take(blank);
    result.rows = std::move(rows_);
    if (of_first_tape_ > 0)
      result.remarks.push_back(
          {"filled.first_tape",
           {{"count", base::Count{of_first_tape_}}, {"tape", Quoted{values_.text("tape.1")}}}});
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
    rows_.push_back(std::move(row));
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
    throw InputError(Fact{"errors.between_which"}).at(field(Quoted{blank}));
  }

  [[nodiscard]] bool is_point(const std::string& label) const {
    return std::find(points_.begin(), points_.end(), label) != points_.end();
  }

  /// What the row names; a number is a tape named at the head of the sheet, and without any
  /// name it is tape 1.
  std::optional<Written> tape_of(const std::string& row) {
    const std::string blank = "instrument." + row;
    const std::string text = values_.text(blank);
    if (text.empty()) {
      if (values_.text("tape.1").empty()) return std::nullopt;
      if (!values_.text("tape.2").empty()) ++of_first_tape_;
      return values_.written("tape.1");
    }
    const std::string at_head = "tape." + text;
    if (!is_number(text) || !values_.has(at_head)) return values_.written(blank);
    if (values_.text(at_head).empty())
      throw InputError(
          Fact{"errors.unnamed_tape", {{"read", Quoted{text}}, {"field", field(Name{at_head})}}})
          .at(field(Name{blank}));
    return values_.written(at_head);
  }

  const BlankValues& values_;
  const JobRecord& record_;
  std::vector<std::string> points_;
  std::vector<WrittenRow> rows_;
  std::size_t of_first_tape_ = 0;
};

// The form as a whole

[[noreturn]] void refuse_stranger(const fields::Filled& filled) {
  throw InputError(filled.fields.empty() ? Fact{"errors.no_fields"} : Fact{"errors.foreign_form"});
}

[[noreturn]] void refuse_other_job(const JobRecord& record, const job::Job& job) {
  /// More would bury the message.
  constexpr std::size_t kMostTold = 4;
  std::vector<Fact> changes = changes_since(record, job);
  if (record.title != job.title)
    changes.insert(
        changes.begin(),
        {"errors.was_now",
         {{"what", Name{"title"}}, {"was", Quoted{record.title}}, {"now", Quoted{job.title}}}});
  if (changes.empty()) changes.push_back({"errors.changed", {{"what", Name{"fingerprint"}}}});
  Fact told = changes.front();
  for (std::size_t i = 1; i < std::min(changes.size(), kMostTold); ++i)
    told = {"lists.clauses", {{"before", std::move(told)}, {"next", changes[i]}}};
  if (changes.size() > kMostTold)
    told = {"errors.more_changes",
            {{"before", std::move(told)}, {"count", base::Count{changes.size() - kMostTold}}}};
  throw InputError(Fact{"errors.other_job",
                        {{"changes", std::move(told)},
                         {"on_form", Name{record.fingerprint}},
                         {"in_job", Name{fingerprint(job.plan)}}}});
}

JobRecord record_of(const fields::Filled& filled, const job::Job& job) {
  if (filled.record.empty()) refuse_stranger(filled);
  JobRecord record = job_record_from_text(filled.record);
  if (record.fingerprint != fingerprint(job.plan)) refuse_other_job(record, job);
  return record;
}

/// Lengths that were bare numbers in the form's units, so that they mean the same in the job's.
void spell_out(const std::vector<readings::Reading>& read, std::vector<WrittenRow>& rows) {
  constexpr double kFoot_m = 0.3048;
  const auto spell = [](WrittenRow& row, const char* column, double value_m, base::Units written) {
    const auto found = row.find(column);
    if (found == row.end() || found->second.text.empty()) return;
    found->second.text = written == base::Units::feet_inches
                             ? fmt::format("{:.9f}ft", value_m / kFoot_m)
                             : fmt::format("{:.9f}m", value_m);
  };
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (read[i].kind == readings::Kind::angle) continue;
    spell(rows[i], "reading", read[i].value_m, read[i].written);
    spell(rows[i], "burned", read[i].burned_m.value_or(0.0), read[i].written);
  }
}

}  // namespace

FormReadings readings_on(std::string_view pdf, const std::string& name, const job::Job& job) {
  const base::Value file = base::is_printable(name) ? base::Value(Name{name}) : Quoted{name};
  FormReadings result;
  job::Job as_on_form = job;
  base::read_at(file, [&] {
    const fields::Filled filled = fields::filled_from(pdf);
    const JobRecord record = record_of(filled, job);
    as_on_form.units = record.units;
    Rows(BlankValues(filled, record.blanks), record, job).take_into(result);
    if (filled.has_actions) result.remarks.push_back({"filled.actions"});
  });
  result.readings = job::readings_from_rows(result.rows, name, as_on_form);
  if (as_on_form.units != job.units) spell_out(result.readings, result.rows);
  if (result.rows.empty()) result.remarks.push_back({"filled.nothing"});
  for (Fact& remark : result.remarks)
    remark = {"filled.remark", {{"file", file}, {"remark", std::move(remark)}}};
  return result;
}

}  // namespace stakewright::forms
