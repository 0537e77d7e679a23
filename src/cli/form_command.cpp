#include "commands.hpp"
#include "console.hpp"
#include "findings.hpp"
#include "language.hpp"
#include "output_file.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/output/json.hpp"
#include "text.hpp"

namespace stakewright::cli {
namespace {

Painted correction_sheet(const Options& options, const job::Job& job, const Painter& painter) {
  const job::ReadingRows rows = reading_rows_of(options, job);
  Painted painted = painter.correction_sheet(options, job, findings_of(job, rows, options));
  for (std::string& remark : texts_of(job::not_read_remarks(rows), voice_of(options, job)))
    painted.remarks.push_back(std::move(remark));
  return painted;
}

}  // namespace

int form(const Options& options, const Painter* painter) {
  const job::Job job = job::read_job(options.job);
  deliver(options, {.json = [&] { return output::written_json("form", job.title, options.output); },
                    .report = [] { return std::string(); },
                    .drawing =
                        [&] {
                          return options.readings.empty()
                                     ? painter->field_form(options, job)
                                     : correction_sheet(options, job, *painter);
                        }});
  return kAllInTolerance;
}

}  // namespace stakewright::cli
