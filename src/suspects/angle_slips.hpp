// What sizes a slip in a turned angle comes in.  Radians.
//
// The table of kinds and shares stands in docs/methods/suspects.md.
#pragma once

#include <cstddef>
#include <vector>

#include "slips.hpp"

namespace stakewright::suspects {

/// The mixture of an angle's slip; shares add to one.  `spread_m`: of a well-set stake.
std::vector<Component> angle_slip_sizes(const adjustment::Network& network, std::size_t reading,
                                        double spread_m);

/// Every angle with one sight of the reading right and the other on another corner or the center
/// pin, that is not the reading's own.
std::vector<OtherPull> other_sights(const adjustment::Network& network, std::size_t reading);

}  // namespace stakewright::suspects
