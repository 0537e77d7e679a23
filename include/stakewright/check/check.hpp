// The whole way from readings to what a foreman can act on, step after step:
// adjust, weigh misread readings, adjust again, weigh suspects, lay the plan
// over what was found, judge, give moves.  Pure: no files, no printing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "stakewright/adjustment/adjust.hpp"
#include "stakewright/adjustment/slips.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/base/tolerance.hpp"
#include "stakewright/layout/plan.hpp"
#include "stakewright/placement/moves.hpp"
#include "stakewright/placement/placement.hpp"
#include "stakewright/readings/reading.hpp"
#include "stakewright/roof/roof.hpp"
#include "stakewright/suspects/suspects.hpp"
#include "stakewright/suspects/tapes.hpp"

namespace stakewright::check {

struct Input {
  layout::Plan plan;
  base::Tolerance tolerance;
  base::Staking staking;
  base::Units units = base::Units::millimetres;
  std::vector<readings::Instrument> instruments;
  std::vector<readings::Reading> readings;
};

enum class Verdict {
  in,            ///< every corner is in tolerance
  out,           ///< at least one corner is out
  undecided,     ///< no corner is out, and not all are surely in
  contradiction  ///< readings contradict each other and no single cause stands out
};

struct Findings {
  Verdict verdict = Verdict::undecided;
  adjustment::Network network;
  adjustment::Adjustment all;    ///< with every reading
  adjustment::SlipTest slips;
  adjustment::Adjustment used;   ///< without the excluded readings; equal to `all` when none are
  suspects::Suspects suspects;
  std::vector<suspects::NextTape> tape_next;
  std::optional<placement::Survey> survey;          ///< empty without any place found
  std::optional<placement::Placement> placement;    ///< fewest moves; judged by this one
  std::optional<placement::Placement> least_squares;  ///< for comparison only
  std::vector<placement::Move> moves;
  std::vector<std::string> remarks;  ///< plain sentences
};

/// Throws InputError when a reading names what is not there.
Findings check(const Input& input);

/// The found corners in the plan's frame, for the carry.  Empty unless every corner's place is known.
std::optional<roof::FoundCorners> found_for_roof(const Findings& findings);

/// Exit status of the command: 0 in, 1 out, 3 undecided or contradiction.
int exit_status(Verdict verdict);

}  // namespace stakewright::check
