// What if: the corners left as found, the moves made, the play of the post bases used.
//
// Units: meters.  docs/methods/roof.md.
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
  int own_parts = 0;  ///< off, or perhaps off, by more than is forgiven
  int own_cuts = 0;   ///< and so with cuts
  int open_joints = 0;
};

Outcome outcome(const Carry& carry);

/// Nothing of the outcome asks for a cut of its own, and every joint closes.
bool all_to_pattern(const Outcome& outcome);

/// Ways to go on with the corners, by the work they take: pour them as found, set the posts off
/// their footings' centers, move stakes.
enum class Way { leave, with_play, after_moves };

/// The first of some ways, least work first, that is as good as the best of them: its worst part
/// and its worst joint, doubt included, come within the part tolerance of the best way's worst.
/// Ways without found figures never serve; 0 when none has any.
std::size_t least_work_that_serves(const std::vector<Outcome>& ways, double part_tolerance_m);

/// The corners once the moves are made: a moved corner stands in its planned place, with
/// `set_sd_m` each way and no ties to the others; the others stay as found.
FoundCorners after_moves(const layout::Plan& plan, const FoundCorners& found,
                         const std::vector<placement::Move>& moves, double set_sd_m);

/// How a post stands off its footing's center.
struct PostOff {
  double outward_m = 0.0;   ///< along the corner radius
  double sideways_m = 0.0;  ///< and square to it: clockwise positive
  double distance_m = 0.0;
};

/// Posts set off their footings' centers so that the plate comes nearest to regular.
struct BasePlay {
  FoundCorners corners;      ///< where the posts stand, in the frame of the plan laid on them
  std::vector<PostOff> off;  ///< by corner
};

/// Each post may stand off by `play_m` at most, in any direction.  The plan is laid so that the
/// squares of what is left between posts and plan are least (a transformation of shift and turn,
/// without scale); nothing is left, to 1e-5 mm, where the play does.
BasePlay with_base_play(const layout::Plan& plan, const FoundCorners& found, double play_m);

}  // namespace stakewright::roof
