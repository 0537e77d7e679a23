// The check of a job's readings, as the drawings need it.
#pragma once

#include "options.hpp"
#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"

namespace stakewright::draw {

/// Reads the readings file of the options and checks it; sentences come in `units`.
/// Throws InputError for what is wrong in the file.
check::Findings findings_of(const Options& options, const job::Job& job, base::Units units);

}  // namespace stakewright::draw
