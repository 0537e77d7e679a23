// The joints that open when every piece is cut to the pattern.
#pragma once

#include <vector>

#include "bay.hpp"
#include "exact.hpp"
#include "judge.hpp"
#include "stakewright/roof/roof.hpp"

namespace stakewright::roof {

/// Joints of all bays, corner after corner.  docs/methods/roof.md lists them.
std::vector<Joint> joints(const Roof& roof, const std::vector<Bay>& planned,
                          const std::vector<Bay>& found, const Judge& judge);

}  // namespace stakewright::roof
