// The levels of a check, told.
#pragma once

#include <vector>

#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/told/report.hpp"

namespace stakewright::told {

/// How the footings stand, a leaning form, misread rods.  Nothing when no rod was read.
Paragraph levels_opening(const check::Findings& findings, const base::Tolerance& tolerance);

/// The footings' levels and packing, and the rod readings.  None when no rod was read.
std::vector<Section> levels_sections(const job::Job& job, const check::Findings& findings);

}  // namespace stakewright::told
