// Parts of the carry's JSON, each written in its own source.
#pragma once

#include "json.hpp"
#include "stakewright/job/carry_result.hpp"

namespace stakewright::job {

/// "leave", "with_play", "after_moves".
const char* word_of(roof::Way way);

Json ways_json(const Job& job, const CarryResult& result);
Json need_json(const roof::CornerNeed& need);
Json shift_json(const Shift& shift);
Json cut_sheet_json(const CutSheet& sheet);

}  // namespace stakewright::job
