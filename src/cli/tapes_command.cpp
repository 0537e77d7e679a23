#include <fmt/format.h>

#include <algorithm>

#include "commands.hpp"
#include "console.hpp"
#include "findings.hpp"
#include "output_file.hpp"
#include "reports.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/job/results.hpp"

namespace stakewright::cli {
namespace {

constexpr double kInch_m = 0.0254;
constexpr double kMetricSlip_m = 0.025;

double length_option(const std::string& text, const char* option, base::Units units) {
  try {
    return base::length_m_from_text(text, units);
  } catch (const base::InputError& problem) {
    throw problem.at(option);
  }
}

/// The tape a job's pulls are made with when nothing else is said.
const readings::Instrument& default_tape(const job::Job& job) {
  const std::string name = readings::default_instrument(readings::Kind::tape);
  return *std::find_if(job.instruments.begin(), job.instruments.end(),
                       [&](const auto& instrument) { return instrument.name == name; });
}

suspects::TapePlanRequest request_of(const Options& options, const job::Job& job) {
  suspects::TapePlanRequest request;
  request.instrument = default_tape(job);
  request.tolerance = job.tolerance;
  request.slip_m = job.units == base::Units::feet_inches ? kInch_m : kMetricSlip_m;
  if (!options.slip.empty()) request.slip_m = length_option(options.slip, "--slip", job.units);
  if (!options.shift.empty()) request.shift_m = length_option(options.shift, "--shift", job.units);
  request.at_most = options.at_most;
  return request;
}

void show(const Options& options, const std::string& json, const std::string& report) {
  if (!options.output.empty()) job::write_file(options.output, json);
  print(options.json ? json : report);
  if (!options.json && !options.output.empty()) remark(fmt::format("Wrote {}.", options.output));
}

int plan_beforehand(const Options& options, const job::Job& job, const Shown& shown) {
  const suspects::TapePlan plan = suspects::tape_plan(job.plan, request_of(options, job));
  show(options, job::tapes_json(job, plan), tapes_report(job, plan, shown));
  return kAllInTolerance;
}

/// A check asks for pulls only while its verdict is open; whoever asks here wants them anyway.
check::Findings findings_with_pulls(const Options& options, const job::Job& job,
                                    base::Units units) {
  check::Findings findings = findings_of(job, options.readings, units);
  if (findings.verdict == check::Verdict::in) {
    const suspects::Setting setting{job.staking, job.tolerance, units};
    findings.tape_next = suspects::next_tapes(findings.network, findings.suspects, setting);
  }
  return findings;
}

int next_after(const Options& options, const job::Job& job, const Shown& shown) {
  const check::Findings findings = findings_with_pulls(options, job, shown.units);
  show(options, job::next_tapes_json(job, findings), next_tapes_report(job, findings, shown));
  const bool open = check::exit_status(findings.verdict) == kCannotTell;
  const bool more = !findings.tape_next.empty() || !findings.used.loose.empty();
  return open || more ? kCannotTell : kAllInTolerance;
}

}  // namespace

int tapes(const Options& options) {
  if (!options.output.empty()) ending_among(options.output, {".json"});
  const job::Job job = job::read_job(options.job);
  const Shown shown{options.units.value_or(job.units), emphasis_for_stdout()};
  return options.readings.empty() ? plan_beforehand(options, job, shown)
                                  : next_after(options, job, shown);
}

}  // namespace stakewright::cli
