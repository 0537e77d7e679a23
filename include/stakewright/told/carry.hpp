// The roof, told: what to do with the corners, what to cut, what to buy.
#pragma once

#include "stakewright/job/job.hpp"
#include "stakewright/results/carry.hpp"
#include "stakewright/told/report.hpp"
#include "stakewright/wording/voice.hpp"

namespace stakewright::told {

// `voice` tells which figures come out alike: such pieces are told once, and what comes out as
// nothing is left away.

/// How much of a carry is told: what differs from the pattern, or every piece.
enum class Detail { what_differs, all };

/// What to do with the corners, the pieces that are off, the joints, and the pattern.
Report carry_report(const job::Job& job, const results::CarryResult& result, Detail detail,
                    const wording::Voice& voice);

/// What to buy and what to saw from it; the result has a cut sheet.
Report cut_sheet_report(const job::Job& job, const results::CarryResult& result,
                        const wording::Voice& voice);

/// What one corner does to the pieces near it; the result has a shift.
Report sensitivity_report(const job::Job& job, const results::CarryResult& result,
                          const wording::Voice& voice);

}  // namespace stakewright::told
