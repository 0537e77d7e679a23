#include "commands.hpp"
#include "console.hpp"
#include "findings.hpp"
#include "language.hpp"
#include "output_file.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/output/blank_readings.hpp"
#include "stakewright/output/json.hpp"
#include "stakewright/results/tapes.hpp"
#include "stakewright/told/suspects.hpp"
#include "stakewright/told/tapes.hpp"

namespace stakewright::cli {
namespace {

double length_option(const std::string& text, const char* option, base::Units units) {
  return base::read_at(option, [&] { return base::length_m_from_text(text, units); });
}

suspects::TapePlanRequest request_of(const Options& options, const job::Job& job) {
  suspects::TapePlanRequest request = results::usual_request(job);
  if (!options.slip.empty()) request.slip_m = length_option(options.slip, "--slip", job.units);
  if (!options.shift.empty()) request.shift_m = length_option(options.shift, "--shift", job.units);
  request.at_most = options.at_most;
  return request;
}

int plan_beforehand(const Options& options, const job::Job& job) {
  const suspects::TapePlan plan = suspects::tape_plan(job.plan, request_of(options, job));
  const auto report = [&] {
    return text_of(told::tape_plan_report(job, plan), voice_of(options, job),
                   emphasis_for_stdout());
  };
  deliver(options, {.json = [&] { return output::tapes_json(job, plan, json_voice_of(job)); },
                    .report = report,
                    .kinds = {{".csv", [&] { return output::blank_readings_csv(plan); }}}});
  return kAllInTolerance;
}

/// A check asks for pulls only while its verdict is open; whoever asks here wants them anyway.
check::Findings findings_with_pulls(const Options& options, const job::Job& job,
                                    const job::ReadingRows& rows) {
  check::Findings findings = findings_of(job, rows, options);
  if (findings.places == check::Verdict::in) {
    const suspects::Setting setting{job.staking, job.tolerance};
    findings.tape_next = suspects::next_tapes(findings.network, findings.suspects, setting);
  }
  return findings;
}

int next_after(const Options& options, const job::Job& job) {
  const job::ReadingRows rows = reading_rows_of(options, job);
  const check::Findings findings = findings_with_pulls(options, job, rows);
  const wording::Voice voice = voice_of(options, job);
  const auto report = [&] {
    return text_of(told::next_tapes_report(job, findings), voice, emphasis_for_stdout());
  };
  deliver(options,
          {.json = [&] { return output::next_tapes_json(job, findings, json_voice_of(job)); },
           .report = report,
           .remarks = texts_of(job::not_read_remarks(rows), voice),
           .kinds = {{".csv", [&] { return output::blank_readings_csv(findings); }}}});
  const bool open = check::exit_status(findings.places) == kCannotTell;
  const bool more = !findings.tape_next.empty() || !findings.used.loose.empty();
  return open || more ? kCannotTell : kAllInTolerance;
}

}  // namespace

int tapes(const Options& options) {
  const job::Job job = job_of(options);
  return options.readings.empty() ? plan_beforehand(options, job) : next_after(options, job);
}

}  // namespace stakewright::cli
