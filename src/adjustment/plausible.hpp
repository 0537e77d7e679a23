// Does what the iteration found still look like the plan?
#pragma once

#include <cstddef>
#include <vector>

#include "determinacy.hpp"
#include "model.hpp"

namespace stakewright::adjustment {

/// False when the corners found are those of another polygon, or run the other way round.
bool draws_the_plan(const Network& network, const Determinacy& known, const State& state);

}  // namespace stakewright::adjustment
