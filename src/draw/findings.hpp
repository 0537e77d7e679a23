// The check of a job's readings, as the drawings need it.
#pragma once

#include "options.hpp"
#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/job/readings_file.hpp"

namespace stakewright::draw {

/// The rows of the readings file of the options, or what was typed into the filled form.
/// Throws InputError for what is wrong in the file.
job::ReadingRows rows_of(const Options& options, const job::Job& job);

/// Checks the round of the rows that the options ask for.
check::Findings findings_of(const Options& options, const job::Job& job,
                            const job::ReadingRows& rows);

}  // namespace stakewright::draw
