// What a check is made from: a job and its readings.
#pragma once

#include <vector>

#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/readings/reading.hpp"

namespace stakewright::results {

/// Everything of the job that bears on its readings.  The latest round is asked for, and no
/// comparison.
check::Input check_input(const job::Job& job, std::vector<readings::Reading> readings);

}  // namespace stakewright::results
