#include <algorithm>

#include "commands.hpp"
#include "console.hpp"
#include "language.hpp"
#include "output_file.hpp"
#include "picture_file.hpp"
#include "reports.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/output/dxf.hpp"
#include "stakewright/output/json.hpp"
#include "stakewright/output/points.hpp"
#include "stakewright/readings/missing_figures.hpp"
#include "stakewright/results/layout.hpp"
#include "with_tape.hpp"

namespace stakewright::cli {
namespace {

/// What to read on the tape asked for, and remarks on what it cannot be corrected for.
void add_tape(const Options& options, const job::Job& job, results::LayoutResult& result) {
  result.with = with_tape(options, job);
  if (!result.with) return;
  readings::Reading as_held;
  as_held.instrument = result.with->tape.name;
  as_held.temperature_c = result.with->held.temperature_c;
  as_held.pull_n = result.with->held.pull_n;
  const wording::Voice english(wording::built_in(wording::kUsualLanguage), job.units);
  for (const base::Fact& remark : readings::missing_figures({as_held}, job.instruments))
    result.order.remarks.push_back(english.text(remark));
}

}  // namespace

int layout(const Options& options) {
  if (!options.output.empty())
    ending_among(options.output, with_pictures({".json", ".csv", ".dxf"}));
  const job::Job job = job_of(options);
  const base::Units units = options.units.value_or(job.units);
  results::LayoutResult result = results::layout_of(job);
  add_tape(options, job, result);
  if (const int refused = draw_picture("layout", options); refused != 0) return refused;
  deliver(
      options, [&] { return output::layout_json(job, result); },
      [&] {
        return layout_report(job, result, {units, emphasis_for_stdout()});
      },
      in_language(result.order.remarks),
      {{".csv", [&] { return output::points_csv(job, result, units); }},
       {".dxf", [&] { return output::layout_dxf(job, result, units); }}});
  const bool crosses = std::any_of(result.clearances.begin(), result.clearances.end(),
                                   [](const auto& clearance) { return clearance.crosses; });
  return crosses ? kOutOfTolerance : kAllInTolerance;
}

}  // namespace stakewright::cli
