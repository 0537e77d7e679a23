// Posts: from each footing to the underside of level beams.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "exact.hpp"
#include "judge.hpp"
#include "stakewright/roof/roof.hpp"

namespace stakewright::roof {

/// Adds a post a corner, if the job gives their height.  The post on the highest footing has the
/// planned length; each other one is longer by what its footing is lower.
void add_posts(Carry& carry, const Roof& roof, const std::vector<std::string>& labels,
               const std::optional<Footings>& footings, const Judge& judge);

}  // namespace stakewright::roof
