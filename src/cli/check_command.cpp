#include "commands.hpp"
#include "console.hpp"
#include "findings.hpp"
#include "language.hpp"
#include "output_file.hpp"
#include "picture_file.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/output/dxf.hpp"
#include "stakewright/output/json.hpp"
#include "stakewright/output/points.hpp"
#include "stakewright/told/check.hpp"

namespace stakewright::cli {
int check(const Options& options) {
  if (!options.output.empty())
    ending_among(options.output, with_pictures({".json", ".csv", ".dxf"}));
  const job::Job job = job_of(options);
  const base::Units units = options.units.value_or(job.units);
  const check::Findings findings = findings_of(job, options);
  const wording::Voice voice = voice_of(options, job);
  if (const int refused = draw_picture("check", options); refused != 0) return refused;
  deliver(
      options, [&] { return output::check_json(job, findings, json_voice_of(options, job)); },
      [&] {
        return text_of(told::check_report(job, findings, options.corrections), voice,
                       emphasis_for_stdout());
      },
      texts_of(findings.remarks, voice),
      {{".csv", [&] { return output::found_points_csv(job, findings, units); }},
       {".dxf", [&] { return output::found_dxf(job, findings, units); }}});
  return check::exit_status(findings.verdict);
}

}  // namespace stakewright::cli
