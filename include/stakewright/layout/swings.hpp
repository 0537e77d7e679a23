// In which order to set the stakes, and from which two points each one is taped.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "stakewright/layout/plan.hpp"

namespace stakewright::layout {

/// How well a tape puts a stake at a length: variance = constant² + (per_length·d)² + 2·centring².
struct TapeSpread {
  double constant_m = 0.001;
  double per_length = 0.0;
  double centring_m = 0.0;
};

struct Hold {
  std::string label;      ///< stake, centre pin or site pin where the tape's zero is held
  double length_m = 0.0;  ///< pull to the new stake
};

/// Setting one stake where two tapes cross.
struct Swing {
  std::string stake;
  std::array<Hold, 2> from;
  double crossing_rad = 0.0;  ///< between the tapes, from 0 to pi/2: pi/2 is square
  double sd_m = 0.0;          ///< predicted standard deviation of the stake's place: square root of
                              ///< the larger eigenvalue of its covariance, held points' errors included
};

/// Crossings flatter than this are used only where no better pair exists.
inline constexpr double kFlattestCrossing_rad = 0.5235987755982988;  // 30 degrees

/// Swings in working order.  What stands already: two or more pins when given, else the first two
/// held stakes (a side or diagonal taped along the baseline), else the centre pin and the stake on
/// the line of sight.  docs/methods/staking.md gives the rule and the propagation.
struct StakingOrder {
  std::vector<std::string> given;  ///< points that stand before the first swing
  std::vector<std::string> remarks;
  std::vector<Swing> swings;
};

StakingOrder staking_order(const Plan& plan, const TapeSpread& spread);

}  // namespace stakewright::layout
