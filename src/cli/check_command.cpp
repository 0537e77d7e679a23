#include "commands.hpp"
#include "console.hpp"
#include "findings.hpp"
#include "language.hpp"
#include "output_file.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/output/dxf.hpp"
#include "stakewright/output/json.hpp"
#include "stakewright/output/points.hpp"
#include "stakewright/told/check.hpp"

namespace stakewright::cli {

int check(const Options& options, const Painter* painter) {
  const job::Job job = job_of(options);
  const base::Units units = options.units.value_or(job.units);
  const check::Findings findings = findings_of(job, options);
  const wording::Voice voice = voice_of(options, job);
  const auto report = [&] {
    return text_of(told::check_report(job, findings, options.corrections), voice,
                   emphasis_for_stdout());
  };
  deliver(options,
          {.json = [&] { return output::check_json(job, findings, json_voice_of(job)); },
           .report = report,
           .remarks = texts_of(findings.remarks, voice),
           .kinds = {{".csv", [&] { return output::found_points_csv(job, findings, units); }},
                     {".dxf", [&] { return output::found_dxf(job, findings, units); }}},
           .drawing = [&] { return painter->found(options, job, findings); }});
  return check::exit_status(findings.verdict);
}

}  // namespace stakewright::cli
