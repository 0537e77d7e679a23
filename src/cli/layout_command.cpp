#include <algorithm>

#include "commands.hpp"
#include "console.hpp"
#include "output_file.hpp"
#include "picture_file.hpp"
#include "reports.hpp"
#include "stakewright/job/results.hpp"

namespace stakewright::cli {

int layout(const Options& options) {
  if (!options.output.empty())
    ending_among(options.output, with_pictures({".json", ".csv", ".dxf"}));
  const job::Job job = job::read_job(options.job);
  const base::Units units = options.units.value_or(job.units);
  const job::LayoutResult result = job::layout_of(job);
  if (const int refused = draw_picture("layout", options); refused != 0) return refused;
  deliver(
      options, [&] { return job::layout_json(job, result); },
      [&] {
        return layout_report(job, result, {units, emphasis_for_stdout()});
      },
      result.order.remarks,
      {{".csv", [&] { return job::points_csv(job, result, units); }},
       {".dxf", [&] { return job::layout_dxf(job, result, units); }}});
  const bool crosses = std::any_of(result.clearances.begin(), result.clearances.end(),
                                   [](const auto& clearance) { return clearance.crosses; });
  return crosses ? kOutOfTolerance : kAllInTolerance;
}

}  // namespace stakewright::cli
