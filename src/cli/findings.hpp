// Readings from whatever a crew brings back, and their check, as the commands need them.
#pragma once

#include "options.hpp"
#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/job/readings_file.hpp"

namespace stakewright::cli {

/// The rows of `options.readings`, told by what is in the file: CSV, or the filled form.  A form is
/// read by a program of its own (`csv_of_filled_form`).
/// Throws InputError for what is wrong in the file, AlreadyTold when that program has said so.
job::ReadingRows reading_rows_of(const Options& options, const job::Job& job);

/// Checks the round of a file that the options ask for.
check::Findings findings_of(const job::Job& job, const job::ReadingRows& rows,
                            const Options& options);

/// Reads the readings of the options and checks it; what is not read yet is among the
/// remarks.  Throws as `reading_rows_of`.
check::Findings findings_of(const job::Job& job, const Options& options);

}  // namespace stakewright::cli
