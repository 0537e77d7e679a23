// Corrections of readings, told.
#pragma once

#include <vector>

#include "stakewright/check/check.hpp"
#include "stakewright/readings/corrections.hpp"
#include "stakewright/told/report.hpp"

namespace stakewright::told {

/// Why and by how much: "tape warm: 1/8" added; on a slope: 1/4" taken off".
base::Value corrections_made(const std::vector<readings::Correction>& corrections);

/// What each length is corrected for.
Section corrections_section(const check::Findings& findings);

}  // namespace stakewright::told
