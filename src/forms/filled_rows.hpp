// Which blanks of a filled form belong together as one reading.
#pragma once

#include <string>
#include <vector>

#include "blank_values.hpp"
#include "stakewright/forms/job_record.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/job/written_rows.hpp"

namespace stakewright::forms {

struct FilledRows {
  std::vector<job::WrittenRow> rows;
  std::vector<std::string> remarks;
};

/// One row for each reading blank that holds something, in the order of the form's blanks.
/// Throws InputError with the field's name.
FilledRows filled_rows_of(const BlankValues& values, const JobRecord& record, const job::Job& job);

}  // namespace stakewright::forms
