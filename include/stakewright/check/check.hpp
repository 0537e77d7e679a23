// The whole way from readings to what a foreman can act on, step after step:
// adjust, weigh misread readings, adjust again, weigh suspects, lay the plan
// over what was found, judge, give moves.  Pure: no files, no printing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "stakewright/adjustment/adjust.hpp"
#include "stakewright/adjustment/slips.hpp"
#include "stakewright/base/tolerance.hpp"
#include "stakewright/check/movement.hpp"
#include "stakewright/check/same_pairs.hpp"
#include "stakewright/layout/plan.hpp"
#include "stakewright/levels/levels.hpp"
#include "stakewright/placement/moves.hpp"
#include "stakewright/placement/placement.hpp"
#include "stakewright/readings/reading.hpp"
#include "stakewright/roof/found_corners.hpp"
#include "stakewright/suspects/suspects.hpp"
#include "stakewright/suspects/tapes.hpp"

namespace stakewright::check {

struct Input {
  layout::Plan plan;
  base::Tolerance tolerance;
  base::Staking staking;
  levels::Wanted levels;
  std::vector<readings::Instrument> instruments;
  std::vector<readings::Reading> readings;  ///< of all rounds
  std::string round;                        ///< the round to check; empty: the latest
  std::string since;  ///< compare it with this earlier round; empty: with none
};

enum class Verdict {
  in,            ///< every corner is in tolerance, and level where levels were read
  out,           ///< at least one corner is out, or off level
  undecided,     ///< none is out, and not all are surely in
  contradiction  ///< readings contradict each other, and what is wrong decides a corner; or they
                 ///< are not of this plan at all
};

struct Findings {
  std::string round;                     ///< the round checked; empty without readings
  std::vector<std::string> rounds;       ///< of the readings, as they first come
  Verdict verdict = Verdict::undecided;  ///< of the places and, where rods were read, of the levels
  Verdict places = Verdict::undecided;   ///< of the corners' places alone
  adjustment::Network network;
  adjustment::Adjustment all;  ///< with every reading
  adjustment::SlipTest slips;
  /// Without the excluded readings; equal to `all` when none are.  When a slip cannot be named:
  /// without the likeliest readings it may be in.
  adjustment::Adjustment used;
  suspects::Suspects suspects;
  std::vector<suspects::NextTape> tape_next;
  std::optional<placement::Survey> survey;        ///< empty unless two corners' places are known
  std::optional<placement::Placement> placement;  ///< fewest moves; judged by this one
  std::optional<placement::Placement> least_squares;  ///< for comparison only
  std::vector<placement::Move> moves;
  double set_sd_m = 0.0;                 ///< with which a moved stake is set, each way
  std::vector<SamePairs> same_pairs;     ///< instruments that read the same pairs
  std::optional<RoundsCompared> since;   ///< when an earlier round was asked for
  std::optional<levels::Levels> levels;  ///< when a rod was read
  std::vector<base::Fact> remarks;       ///< what the figures do not show by themselves
};

/// One round is checked; the readings of the others are left aside.
/// A reading is left out only when the slip test names it.
/// Where a slip cannot be named, each corner is judged over all readings it may be in, by their
/// chances; the verdict is a contradiction unless that decides every corner.  Moves are given only
/// where they do not hang on which reading is wrong.  docs/methods/check.md.
///
/// Levels count in the verdict where a rod was read, and are the whole verdict where nothing else
/// was; a contradiction stays one.  Level differences correct the tapes between leveled points.
///
/// Throws InputError when a reading names what is not there, and for a round that is not there,
/// with "--round" or "--since" in front.
Findings check(const Input& input);

/// The found corners in the plan's frame, for the carry; with the center pin, and its rows in the
/// covariance, when it was taped.  Empty unless every corner's place is known.
std::optional<roof::FoundCorners> found_for_roof(const Findings& findings);

/// Rods were read and nothing else: places are not judged.
bool only_levels(const Findings& findings);

/// Exit status of the command: 0 in, 1 out, 3 undecided or contradiction.
int exit_status(Verdict verdict);

}  // namespace stakewright::check
