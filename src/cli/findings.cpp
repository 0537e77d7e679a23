#include "findings.hpp"

#include "draw_program.hpp"
#include "language.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/check_input.hpp"

namespace stakewright::cli {

job::ReadingRows reading_rows_of(const Options& options, const job::Job& job) {
  const std::string& path = options.readings;
  if (!job::is_pdf_file(path)) return job::read_reading_rows(path, job);
  return job::reading_rows_from_text(csv_of_filled_form(options.job, path), path, job);
}

check::Findings findings_of(const job::Job& job, const job::ReadingRows& rows,
                            const Options& options) {
  keep_names(rows.readings);
  check::Input input = results::check_input(job, rows.readings);
  input.round = options.round;
  input.since = options.since;
  return check::check(input);
}

check::Findings findings_of(const job::Job& job, const Options& options) {
  const job::ReadingRows rows = reading_rows_of(options, job);
  check::Findings findings = findings_of(job, rows, options);
  for (const base::Fact& remark : job::not_read_remarks(rows)) findings.remarks.push_back(remark);
  return findings;
}

}  // namespace stakewright::cli
