// The check of a job's readings, as the commands need it.
#pragma once

#include "options.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"

namespace stakewright::cli {

/// Reads the readings file of the options and checks the round they ask for; sentences come in
/// `units`.  Throws InputError for what is wrong in the file.
check::Findings findings_of(const job::Job& job, const Options& options, base::Units units);

}  // namespace stakewright::cli
