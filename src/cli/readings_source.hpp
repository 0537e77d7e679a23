// Readings from whatever a crew brings back: a CSV file, or the filled form.
#pragma once

#include "options.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/job/readings_file.hpp"

namespace stakewright::cli {

/// The rows of `options.readings`, told by what is in the file.  A form is read by the drawing
/// program, which has the library for it and limits what a file from outside may cost.
/// Throws InputError for what is wrong in the file, AlreadyTold when that program has said so.
job::ReadingRows reading_rows_of(const Options& options, const job::Job& job);

}  // namespace stakewright::cli
