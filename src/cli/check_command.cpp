#include "commands.hpp"
#include "console.hpp"
#include "findings.hpp"
#include "language.hpp"
#include "output_file.hpp"
#include "picture_file.hpp"
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

int check(const Options& options) {
  if (!options.output.empty())
    ending_among(options.output, with_pictures({".json", ".csv", ".dxf"}));
  const job::Job job = job_of(options);
  const base::Units units = options.units.value_or(job.units);
  const check::Findings findings = findings_of(job, options, units);
  if (const int refused = draw_picture("check", options); refused != 0) return refused;
  deliver(
      options, [&] { return output::check_json(job, findings, json_voice_of(options, job)); },
      [&] {
        return check_report(job, findings, {units, emphasis_for_stdout(), options.corrections});
      },
      remarks_of(findings, job.units),
      {{".csv", [&] { return output::found_points_csv(job, findings, units); }},
       {".dxf", [&] { return output::found_dxf(job, findings, units); }}});
  return check::exit_status(findings.verdict);
}

}  // namespace stakewright::cli
