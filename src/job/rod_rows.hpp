// What the rod readings of a whole file must hold to.
#pragma once

#include <string>
#include <vector>

#include "stakewright/readings/reading.hpp"

namespace stakewright::job {

/// Throws InputError, with file and line, past `levels::kMostRodReadings`.
void demand_few_rods(const std::vector<readings::Reading>& all, const std::string& file);

/// Throws InputError for one name used for a set-up and for where a rod stands: that leaves open
/// which was meant.
void demand_set_ups_apart(const std::vector<readings::Reading>& all, const std::string& file);

}  // namespace stakewright::job
