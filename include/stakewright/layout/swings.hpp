// In which order to set the stakes, and from which two points each one is taped.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "stakewright/layout/plan.hpp"

namespace stakewright::layout {

/// How well a tape puts a stake at a length: variance = constant² + (per_length·d)² + 2·centering².
struct TapeSpread {
  double constant_m = 0.001;
  double per_length = 0.0;
  double centering_m = 0.0;
};

struct Hold {
  std::string label;      ///< stake, center pin or site pin where the tape's zero is held
  double length_m = 0.0;  ///< pull to the new stake
};

/// Two tapes cross at two places, one on each hand of somebody who walks from the first hold to
/// the second.
enum class Hand { left, right };

/// Setting one stake where two tapes cross.
struct Swing {
  std::string stake;
  std::array<Hold, 2> from;
  Hand hand = Hand::left;     ///< on which hand the stake lies
  double crossing_rad = 0.0;  ///< between the tapes, from 0 to pi/2: pi/2 is square
  double sd_m = 0.0;          ///< predicted standard deviation of the stake's place: square root of
                      ///< the larger eigenvalue of its covariance, held points' errors included
};

/// Crossings flatter than this are used only where no better pair exists.
inline constexpr double kFlattestCrossing_rad = 0.5235987755982988;  // 30 degrees

/// Setting a point by sight and one tape: on a line seen from a point that stands.
struct Sighting {
  std::string stake;
  std::string from;
  double length_m = 0.0;
  double bearing_rad = 0.0;  ///< clockwise from forward, in [0, 2 pi)
};

/// Swings in working order, every corner and the center pin among them.  What stands already:
///   two or more pins: the pins, and any held stakes;
///   else two or more of pin and held stakes: those, the second taped along the line from the
///   first; else the one there is, or the center pin; and a point sighted from it (`sighted`).
/// docs/methods/staking.md gives the rules and the propagation.
struct StakingOrder {
  std::vector<std::string> given;   ///< points that stand before the first swing
  std::optional<Sighting> sighted;  ///< how the last of two given points was set, when by sight
  std::vector<std::string> remarks;
  std::vector<Swing> swings;
};

/// Greedy: of all stakes still to be set, next the one whose place two tapes from points that stand
/// give with the smallest standard deviation; crossings flatter than `kFlattestCrossing_rad` last.
///
/// Throws InputError for a held label that is no corner or comes twice, for a pin with the name of
/// a stake, for two pins at one place, and for pins so nearly in line with all stakes that no two
/// tapes cross.
StakingOrder staking_order(const Plan& plan, const TapeSpread& spread);

}  // namespace stakewright::layout
