#include <fmt/format.h>

#include <algorithm>

#include "commands.hpp"
#include "console.hpp"
#include "output_file.hpp"
#include "reports.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/job/results.hpp"

namespace stakewright::cli {
namespace {

const std::vector<std::string> kEndings{".json", ".csv"};

void write_output(const Options& options, const job::Job& job, const job::LayoutResult& result,
                  base::Units units) {
  const bool json = ending_of(options.output) == ".json";
  job::write_file(options.output,
                  json ? job::layout_json(job, result) : job::points_csv(job, result, units));
}

}  // namespace

int layout(const Options& options) {
  if (!options.output.empty()) ending_among(options.output, kEndings);
  const job::Job job = job::read_job(options.job);
  const base::Units units = options.units.value_or(job.units);
  const job::LayoutResult result = job::layout_of(job);
  if (!options.output.empty()) write_output(options, job, result, units);
  show(
      options, [&] { return job::layout_json(job, result); },
      [&] {
        return layout_report(job, result, {units, emphasis_for_stdout()});
      },
      result.order.remarks);
  const bool crosses = std::any_of(result.clearances.begin(), result.clearances.end(),
                                   [](const auto& clearance) { return clearance.crosses; });
  return crosses ? kOutOfTolerance : kAllInTolerance;
}

}  // namespace stakewright::cli
