#include "stakewright/forms/filled_form.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "filled_rows.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/fields/filled.hpp"
#include "stakewright/forms/fingerprint.hpp"
#include "stakewright/forms/job_record.hpp"

namespace stakewright::forms {
namespace {

/// More would bury the message.
constexpr std::size_t kMostChangesTold = 4;

[[noreturn]] void refuse_stranger(const fields::Filled& filled) {
  if (filled.fields.empty())
    throw base::InputError(
        "the PDF has no form fields: a print, a scan or a flattened copy holds nothing to read; "
        "accepted: the form itself, filled in on a screen, or the readings as CSV");
  throw base::InputError(
      "the PDF is no form that stakewright made: it has no record of a job; accepted: the form "
      "of this job, filled in");
}

[[noreturn]] void refuse_other_job(const JobRecord& record, const job::Job& job) {
  std::vector<std::string> changes = changes_since(record, job);
  if (record.title != job.title)
    changes.insert(changes.begin(),
                   fmt::format("title was {}, now {}", base::in_quotes(record.title),
                               base::in_quotes(job.title)));
  const std::size_t told = std::min(changes.size(), kMostChangesTold);
  std::string words = fmt::format(
      "{}", fmt::join(changes.begin(), changes.begin() + static_cast<std::ptrdiff_t>(told), "; "));
  if (told < changes.size()) words += fmt::format("; and {} more", changes.size() - told);
  throw base::InputError(fmt::format(
      "the form was made for another job, or before this one was changed: {}; accepted: a form of "
      "the job as it stands (fingerprint {} on the form, {} in the job)",
      words, record.fingerprint, fingerprint(job.plan)));
}

JobRecord record_of(const fields::Filled& filled, const job::Job& job) {
  if (filled.record.empty()) refuse_stranger(filled);
  JobRecord record = job_record_from_text(filled.record);
  if (record.fingerprint != fingerprint(job.plan)) refuse_other_job(record, job);
  return record;
}

/// Lengths that were bare numbers in the form's units, so that they mean the same in the job's.
void spell_out(const std::vector<readings::Reading>& read, std::vector<job::WrittenRow>& rows) {
  constexpr double kFoot_m = 0.3048;
  const auto spell = [](job::WrittenRow& row, const char* column, double value_m,
                        base::Units written) {
    const auto field = row.find(column);
    if (field == row.end() || field->second.text.empty()) return;
    field->second.text = written == base::Units::feet_inches
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
  const std::string file = base::is_printable(name) ? name : base::in_quotes(name);
  FormReadings result;
  job::Job as_on_form = job;
  base::read_at(file, [&] {
    const fields::Filled filled = fields::filled_from(pdf);
    const JobRecord record = record_of(filled, job);
    as_on_form.units = record.units;
    FilledRows filled_rows = filled_rows_of(BlankValues(filled, record.blanks), record, job);
    result.rows = std::move(filled_rows.rows);
    result.remarks = std::move(filled_rows.remarks);
    if (filled.has_actions)
      result.remarks.push_back("the PDF has scripts or actions; none of them was run");
  });
  result.readings = job::readings_from_rows(result.rows, name, as_on_form);
  if (as_on_form.units != job.units) spell_out(result.readings, result.rows);
  if (result.rows.empty()) result.remarks.emplace_back("no reading is filled in");
  for (std::string& remark : result.remarks) remark = fmt::format("{}: {}", file, remark);
  return result;
}

}  // namespace stakewright::forms
