// What if: the corners left as found, the moves made, the play of the post bases used.
//
// Units: metres.  docs/methods/roof.md.
#pragma once

#include <optional>
#include <vector>

#include "stakewright/layout/plan.hpp"
#include "stakewright/placement/moves.hpp"
#include "stakewright/roof/roof.hpp"

namespace stakewright::roof {

/// A carry in a line of a table: its worst part and joint, and how much is cut by itself.
/// Blocking is left out: it is cut to fit on the spot.
struct Outcome {
  std::optional<Part>
      worst_part;  ///< by difference and uncertainty of its line; empty without found
  std::optional<Joint> worst_joint;  ///< by gap and uncertainty; empty without found
  int parts = 0;
  int own_parts = 0;
  int own_cuts = 0;
  int open_joints = 0;
};

Outcome outcome(const Carry& carry);

/// The corners once the moves are made: a moved corner stands in its planned place, with
/// `set_sd_m` each way and no ties to the others; the others stay as found.
FoundCorners after_moves(const layout::Plan& plan, const FoundCorners& found,
                         const std::vector<placement::Move>& moves, double set_sd_m);

/// Posts set off their footings' centres so that the plate comes nearest to regular.
struct BasePlay {
  FoundCorners corners;        ///< where the posts stand, in the frame of the plan laid on them
  std::vector<double> used_m;  ///< how far each post stands off its footing's centre
};

/// Each post may stand off by `play_m` at most, in any direction.  The plan is laid so that the
/// squares of what is left between posts and plan are least; nothing is left where the play does.
BasePlay with_base_play(const layout::Plan& plan, const FoundCorners& found, double play_m);

}  // namespace stakewright::roof
