// What to do with a stake to bring it in: which way, and the two tapes that put
// it there.
#pragma once

#include <cstddef>
#include <vector>

#include "stakewright/placement/placement.hpp"

namespace stakewright::placement {

struct MoveTape {
  std::size_t from = 0;   ///< corner that stays
  double length_m = 0.0;  ///< tape from it, as found, to the wanted place
};

struct Move {
  std::size_t corner = 0;
  double outward_m = 0.0;   ///< the move to make, along the corner radius: outward positive
  double sideways_m = 0.0;  ///< and square to it: clockwise positive
  double distance_m = 0.0;
  std::vector<MoveTape> tapes;       ///< two, or empty when fewer than two stakes stay
  double crossing_rad = 0.0;         ///< of the two tapes, 0 to pi/2
  double predicted_chance_in = 0.0;  ///< after the move
};

/// Moves of all corners that are out, in the order in which they can be made: where fewer than
/// two stakes stay, a stake once moved serves the next one.  Held stakes never move, nor does a
/// stake that is found within tolerance.  Tapes are held at stakes the plan lies on or that are
/// in; at undecided ones only when there are not two of those.  `set_sd_m`, 0 or more, is the
/// standard deviation with which a stake is set by two tapes, each way.
std::vector<Move> moves(const Survey& survey, const Placement& placement,
                        const base::Tolerance& tolerance, double set_sd_m);

}  // namespace stakewright::placement
