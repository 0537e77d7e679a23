#include "findings.hpp"

#include "limits.hpp"
#include "stakewright/fields/filled.hpp"
#include "stakewright/forms/filled_form.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/check_input.hpp"

namespace stakewright::draw {

job::ReadingRows rows_of(const Options& options, const job::Job& job) {
  if (!job::is_pdf_file(options.readings)) return job::read_reading_rows(options.readings, job);
  const std::string pdf = job::bytes_of_file(options.readings, fields::kLargestForm);
  limit_what_a_file_can_cost();
  return {forms::readings_on(pdf, options.readings, job).readings, {}};
}

check::Findings findings_of(const Options& options, const job::Job& job,
                            const job::ReadingRows& rows) {
  check::Input input = results::check_input(job, rows.readings);
  input.round = options.round;
  return check::check(input);
}

}  // namespace stakewright::draw
