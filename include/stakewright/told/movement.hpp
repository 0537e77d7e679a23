// Rounds of readings, told: which is checked, and what moved since an earlier one.
#pragma once

#include <vector>

#include "stakewright/check/check.hpp"
#include "stakewright/told/report.hpp"

namespace stakewright::told {

/// Which of several rounds is checked.  Nothing when there is one.
Paragraph round_line(const check::Findings& findings);

/// What moved.  Nothing when no earlier round was asked for.
Paragraph movement_opening(const check::Findings& findings);

/// The same stake by stake.  None when the rounds were not compared.
std::vector<Section> movement_sections(const check::Findings& findings);

}  // namespace stakewright::told
