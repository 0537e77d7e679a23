// The tape of a job, and what a tape plan is asked for.
#pragma once

#include "stakewright/job/job.hpp"
#include "stakewright/readings/reading.hpp"
#include "stakewright/suspects/tapes.hpp"

namespace stakewright::results {

/// The tape that readings use when they name none: the job's own of that name before the built-in.
readings::Instrument default_tape(const job::Job& job);

/// What a tape plan is asked for unless somebody asks for something else: a slip of 1 in or 25 mm,
/// a shift of twice the corner tolerance, the default tape.
suspects::TapePlanRequest usual_request(const job::Job& job);

}  // namespace stakewright::results
