// Parts of the carry's JSON, each written in its own source.
#pragma once

#include "json.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/carry.hpp"

namespace stakewright::output {

/// "leave", "with_play", "after_moves".
const char* word_of(roof::Way way);

Json ways_json(const job::Job& job, const results::CarryResult& result);
Json need_json(const roof::CornerNeed& need);
Json shift_json(const results::Shift& shift);
Json cut_sheet_json(const results::CutSheet& sheet);

}  // namespace stakewright::output
