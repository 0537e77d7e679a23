// From an entry of the weighing to what is reported of it.
#pragma once

#include <vector>

#include "stakewright/suspects/suspects.hpp"
#include "weighing.hpp"

namespace stakewright::suspects {

/// The causes of an entry with their sizes, kinds of slip and directions.
std::vector<Cause> causes(const Arrangement& arrangement, const Hypothesis& hypothesis);

/// What the entry makes of every reading, as an offset from what is planned for its points as
/// written, in meters or radians.
std::vector<double> effect(const adjustment::Network& network, const Arrangement& arrangement,
                           const Hypothesis& hypothesis);

}  // namespace stakewright::suspects
