// Two instruments on the same pairs of points: what one reads against the other, and which
// readings would show it where there are none.
#pragma once

#include <vector>

#include "stakewright/check/check.hpp"

namespace stakewright::check {

/// Every two instruments that read the same pairs, readings left out aside.
std::vector<SamePairs> same_pairs(const Findings& findings, double confidence);

/// On those that differ by more than their readings' noise, and on the instrument whose own error
/// nothing here would show.
std::vector<base::Fact> instrument_remarks(const Input& input, const Findings& findings);

}  // namespace stakewright::check
