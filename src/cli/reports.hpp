// Results as the text of the terminal report.  Pure: text from plain structs,
// every number rounded once, to the tape's own step.
#pragma once

#include <string>
#include <vector>

#include "stakewright/base/length.hpp"
#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/carry.hpp"
#include "stakewright/results/layout.hpp"
#include "text.hpp"

namespace stakewright::cli {

/// How a report is shown.
struct Shown {
  base::Units units = base::Units::millimeters;
  Emphasis emphasis = Emphasis::off;
  bool corrections = false;  ///< check: of each reading as well
};

/// Plan figures, stakes, swings in working order, check lengths, lines, strings, clearances.
std::string layout_report(const job::Job& job, const results::LayoutResult& result,
                          const Shown& shown);

/// The sentences a foreman acts on: what is out and how it comes in, what was
/// left out and why, what cannot be told and which tape would tell it.
std::string check_opening(const check::Findings& findings, const base::Tolerance& tolerance,
                          base::Units units);

/// What to read on the tape to stake the true distances, with an empty line before it; empty when
/// the layout is not for one tape.
std::string on_tape_section(const results::LayoutResult& result, const Shown& shown);

/// The opening, then corners, moves, readings, suspects, next tapes, the
/// comparison with least squares over all corners, and the adjustment's figures.
std::string check_report(const job::Job& job, const check::Findings& findings, const Shown& shown);

/// The next pulls worth making, each with its why.
std::string next_tapes_report(const job::Job& job, const check::Findings& findings,
                              const Shown& shown);

/// How much of a carry is told: what differs from the pattern, or every piece.
enum class Detail { what_differs, all };

/// What to do with the corners, the pieces that are off, the joints, and the pattern.
std::string carry_report(const job::Job& job, const results::CarryResult& result, Detail detail,
                         const Shown& shown);

/// What to buy and what to saw from it; the result has a cut sheet.
std::string cut_sheet_report(const job::Job& job, const results::CarryResult& result,
                             const Shown& shown);

/// What one corner does to the pieces near it; the result has a shift.
std::string sensitivity_report(const job::Job& job, const results::CarryResult& result,
                               const Shown& shown);

}  // namespace stakewright::cli
