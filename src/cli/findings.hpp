// The check of a job's readings, as the commands need it.
#pragma once

#include <string>

#include "stakewright/base/length.hpp"
#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"

namespace stakewright::cli {

/// Reads the readings file and checks it; sentences come in `units`.
/// Throws InputError for what is wrong in the file.
check::Findings findings_of(const job::Job& job, const std::string& readings_path,
                            base::Units units);

}  // namespace stakewright::cli
