#include "commands.hpp"
#include "console.hpp"
#include "findings.hpp"
#include "language.hpp"
#include "output_file.hpp"
#include "reports.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/output/dxf.hpp"
#include "stakewright/output/json.hpp"
#include "stakewright/output/points.hpp"

namespace stakewright::cli {
namespace {

std::vector<std::string> remarks_of(const check::Findings& findings, base::Units units) {
  std::vector<std::string> remarks = findings.remarks;
  const wording::Voice english(wording::built_in(wording::kUsualLanguage), units);
  for (const base::Fact& remark : findings.more_remarks) remarks.push_back(english.text(remark));
  return remarks;
}

}  // namespace

int check(const Options& options, const Painter* painter) {
  const job::Job job = job_of(options);
  const base::Units units = options.units.value_or(job.units);
  const check::Findings findings = findings_of(job, options, units);
  const Shown shown{units, emphasis_for_stdout(), options.corrections};
  deliver(options,
          {.json = [&] { return output::check_json(job, findings, json_voice_of(options, job)); },
           .report = [&] { return check_report(job, findings, shown); },
           .remarks = remarks_of(findings, job.units),
           .kinds = {{".csv", [&] { return output::found_points_csv(job, findings, units); }},
                     {".dxf", [&] { return output::found_dxf(job, findings, units); }}},
           .drawing = [&] { return painter->found(options, job, findings); }});
  return check::exit_status(findings.verdict);
}

}  // namespace stakewright::cli
