// The check of a job's readings, told.
#pragma once

#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/told/report.hpp"

namespace stakewright::told {

/// The verdict on the places, and how each corner stands and comes in.
Paragraph verdict_sentences(const check::Findings& findings, const base::Tolerance& tolerance);

/// What was left out as misread; where that cannot be told, what may be.
Paragraph left_out(const check::Findings& findings);

/// The likeliest cause, where nothing was left out for it.
Paragraph likeliest_cause(const check::Findings& findings);

/// Corners that the readings do not fix, and the tapes that would.
Paragraph loose_corners(const check::Findings& findings);

/// What a foreman acts on: the verdict, what was left out and why, what cannot be told and which
/// tape would tell it.
Paragraph check_opening(const check::Findings& findings, const base::Tolerance& tolerance);

/// The moves in working order, a row each.
Table moves_table(const check::Findings& findings);

/// The opening, then corners, levels, moves, movement, readings, suspects, next pulls, the
/// comparison with least squares over all corners, and the adjustment's figures.
Report check_report(const job::Job& job, const check::Findings& findings, bool corrections);

}  // namespace stakewright::told
