// The check of a job's readings, as the commands need it.
#pragma once

#include "options.hpp"
#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/job/readings_file.hpp"

namespace stakewright::cli {

/// Checks the round of a file that the options ask for.
check::Findings findings_of(const job::Job& job, const job::ReadingRows& rows,
                            const Options& options);

/// Reads the readings of the options and checks it; what is not read yet is among the
/// remarks.  Throws as `reading_rows_of`.
check::Findings findings_of(const job::Job& job, const Options& options);

}  // namespace stakewright::cli
