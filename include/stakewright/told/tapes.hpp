// The reports of `tapes`.
#pragma once

#include "stakewright/job/job.hpp"
#include "stakewright/suspects/tapes.hpp"
#include "stakewright/told/report.hpp"

namespace stakewright::told {

/// The pulls in walking order, what each would catch and each corner would show, and the misses.
Report tape_plan_report(const job::Job& job, const suspects::TapePlan& plan);

}  // namespace stakewright::told
