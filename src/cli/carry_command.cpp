#include <fmt/format.h>

#include "commands.hpp"
#include "console.hpp"
#include "findings.hpp"
#include "language.hpp"
#include "output_file.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/output/json.hpp"
#include "stakewright/results/carry.hpp"
#include "stakewright/told/carry.hpp"
#include "text.hpp"

namespace stakewright::cli {
namespace {

constexpr double kUsualShift_m = 0.00635;  // 1/4 in
constexpr double kUsualMetricShift_m = 0.005;

/// With readings: 0 every piece comes off the pattern and every joint closes, 1 not so, 3 cannot
/// tell.
int status_of(const results::CarryResult& result) {
  if (result.contradiction || result.cases.empty()) return kCannotTell;
  const roof::Outcome& outcome = result.cases[result.shown].outcome;
  if (!outcome.worst_part) return kCannotTell;
  return roof::all_to_pattern(outcome) ? kAllInTolerance : kOutOfTolerance;
}

job::Job job_with_roof(const Options& options) {
  job::Job job = job_of(options);
  if (job.has_roof) return job;
  throw base::InputError(
      fmt::format("{}: carry needs a [roof] table, with its pitch and overhang", options.job));
}

double shift_m(const Options& options, const job::Job& job) {
  if (options.shift.empty())
    return job.units == base::Units::feet_inches ? kUsualShift_m : kUsualMetricShift_m;
  const double shift_m =
      base::read_at("--shift", [&] { return base::length_m_from_text(options.shift, job.units); });
  if (shift_m > 0.0) return shift_m;
  throw base::InputError(
      fmt::format("--shift: read {}; accepted: a length above 0", base::in_quotes(options.shift)));
}

results::CarryRequest request_of(const Options& options, const job::Job& job) {
  results::CarryRequest request;
  request.way = options.way.value_or(roof::Way::leave);
  request.cut_sheet = options.cut_sheet;
  if (options.sensitivity) request.shift_m = shift_m(options, job);
  return request;
}

std::string report_of(const Options& options, const job::Job& job,
                      const results::CarryResult& result, const wording::Voice& voice) {
  const Emphasis emphasis = emphasis_for_stdout();
  if (!options.cut_sheet && !options.sensitivity) {
    const auto detail = options.all ? told::Detail::all : told::Detail::what_differs;
    return text_of(told::carry_report(job, result, detail, voice), voice, emphasis);
  }
  std::string text;
  if (options.cut_sheet)
    text = text_of(told::cut_sheet_report(job, result, voice), voice, emphasis);
  if (options.cut_sheet && options.sensitivity) text += '\n';
  if (options.sensitivity)
    text += text_of(told::sensitivity_report(job, result, voice), voice, emphasis);
  return text;
}

/// As planned and, with readings, as found.
results::CarryResult carry_of(const Options& options, const job::Job& job) {
  const results::CarryRequest request = request_of(options, job);
  if (options.readings.empty()) return results::carry_of(job, request);
  const job::ReadingRows rows = reading_rows_of(options, job);
  const check::Findings findings = findings_of(job, rows, options);
  results::CarryResult result = results::carry_of(job, findings, request);
  for (const base::Fact& remark : job::not_read_remarks(rows)) result.remarks.push_back(remark);
  return result;
}

}  // namespace

int carry(const Options& options, const Painter* painter) {
  const job::Job job = job_with_roof(options);
  const results::CarryResult result = carry_of(options, job);
  const wording::Voice voice = voice_of(options, job);
  deliver(options, {.json = [&] { return output::carry_json(job, result, json_voice_of(job)); },
                    .report = [&] { return report_of(options, job, result, voice); },
                    .remarks = texts_of(result.remarks, voice),
                    .drawing = [&] { return painter->roof(options, job, result); }});
  return options.readings.empty() ? kAllInTolerance : status_of(result);
}

}  // namespace stakewright::cli
