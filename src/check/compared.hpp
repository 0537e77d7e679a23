// Two rounds' findings held against each other.
#pragma once

#include "stakewright/check/check.hpp"

namespace stakewright::check {

/// `before` and `after` hold the places of the same plan, found in two rounds.
RoundsCompared compared(const Findings& before, const Findings& after, const Input& input);

}  // namespace stakewright::check
