#include "readings.hpp"

#include "limits.hpp"
#include "stakewright/fields/filled.hpp"
#include "stakewright/forms/filled_form.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/job/job.hpp"

namespace stakewright::draw {

FormAsCsv readings_of(const Options& options) {
  const job::Job job = job::read_job(options.job);
  const std::string pdf = job::bytes_of_file(options.readings, fields::kLargestForm);
  limit_what_a_file_can_cost();
  forms::FormReadings form = forms::readings_on(pdf, options.readings, job);
  return {job::csv_from_rows(form.rows), std::move(form.remarks)};
}

}  // namespace stakewright::draw
