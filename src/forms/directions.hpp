// Directions on the page in which a label may stand from its point.
#pragma once

#include <vector>

#include "plan_marks.hpp"
#include "stakewright/base/point.hpp"

namespace stakewright::forms {

/// The direction on paper of a vector on the ground, forward being up.
Direction paper_direction(base::Point ground);

Direction turned(Direction direction, double angle_rad);
Direction back(Direction direction);

/// The direction and others near it, alternately to either side.
std::vector<Direction> fan(Direction direction);

/// Sixteen directions, the right-hand side first.
std::vector<Direction> all_round();

}  // namespace stakewright::forms
