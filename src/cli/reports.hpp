// Results as the text of the terminal report.  Pure: text from plain structs,
// every number rounded once, to the tape's own step.
#pragma once

#include <string>
#include <vector>

#include "stakewright/base/length.hpp"
#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/layout.hpp"
#include "text.hpp"

namespace stakewright::cli {

/// How a report is shown.
struct Shown {
  base::Units units = base::Units::millimeters;
  Emphasis emphasis = Emphasis::off;
};

/// Plan figures, stakes, swings in working order, check lengths, lines, strings, clearances.
std::string layout_report(const job::Job& job, const results::LayoutResult& result,
                          const Shown& shown);

/// What to read on the tape to stake the true distances, with an empty line before it; empty when
/// the layout is not for one tape.
std::string on_tape_section(const results::LayoutResult& result, const Shown& shown);

}  // namespace stakewright::cli
