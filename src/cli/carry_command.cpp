#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "commands.hpp"
#include "console.hpp"
#include "findings.hpp"
#include "output_file.hpp"
#include "picture_file.hpp"
#include "readings_source.hpp"
#include "reports.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/job/results.hpp"

namespace stakewright::cli {
namespace {

constexpr const char* kNoShape =
    "The readings do not fix every corner, so the parts are shown as planned only; check says "
    "which tapes would fix them.";

constexpr const char* kContradiction =
    "The readings contradict each other: do not cut by what is shown as found; run check first.";

/// With readings: 0 every piece comes off the pattern, 1 one needs its own cut, 3 cannot tell.
int status_of(const roof::Carry& carry, check::Verdict verdict) {
  if (verdict == check::Verdict::contradiction) return kCannotTell;
  const auto has_found = [](const roof::Part& part) { return part.line.found.has_value(); };
  if (std::none_of(carry.parts.begin(), carry.parts.end(), has_found)) return kCannotTell;
  const auto own = [](const auto& piece) { return piece.fit == roof::Fit::own; };
  const bool any_own = std::any_of(carry.parts.begin(), carry.parts.end(), own) ||
                       std::any_of(carry.cuts.begin(), carry.cuts.end(), own);
  return any_own ? kOutOfTolerance : kAllInTolerance;
}

void deliver_carry(const Options& options, const job::Job& job, const roof::Carry& carry,
                   base::Units units) {
  deliver(
      options, [&] { return job::carry_json(job, carry); },
      [&] {
        return carry_report(job, carry, {units, emphasis_for_stdout()});
      },
      carry.remarks);
}

job::Job job_with_roof(const std::string& path) {
  job::Job job = job::read_job(path);
  if (job.has_roof) return job;
  throw base::InputError(
      fmt::format("{}: carry needs a [roof] table, with its pitch and overhang", path));
}

}  // namespace

int carry(const Options& options) {
  if (!options.output.empty()) ending_among(options.output, with_pictures({".json"}));
  const job::Job job = job_with_roof(options.job);
  const base::Units units = options.units.value_or(job.units);
  const auto worked = [&job](const std::optional<roof::FoundCorners>& found) {
    return roof::carry(job.plan, job.plate_offset_m, job.roof, job.tolerance, found);
  };
  if (options.readings.empty()) {
    const roof::Carry planned = worked({});
    if (const int refused = draw_picture("carry", options); refused != 0) return refused;
    deliver_carry(options, job, planned, units);
    return kAllInTolerance;
  }
  const job::ReadingRows rows = reading_rows_of(options, job);
  const check::Findings findings = findings_of(job, rows, options, units);
  const auto found = check::found_for_roof(findings);
  roof::Carry carry = worked(found);
  if (!found) carry.remarks.emplace_back(kNoShape);
  if (findings.verdict == check::Verdict::contradiction) carry.remarks.emplace_back(kContradiction);
  for (const std::string& remark : job::not_read_remarks(rows)) carry.remarks.push_back(remark);
  if (const int refused = draw_picture("carry", options); refused != 0) return refused;
  deliver_carry(options, job, carry, units);
  return status_of(carry, findings.verdict);
}

}  // namespace stakewright::cli
