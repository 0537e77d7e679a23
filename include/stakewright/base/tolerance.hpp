// What the job allows, and what usually happens on a site like it.
#pragma once

namespace stakewright::base {

/// `[tolerance]` of the job file.  Meters.
struct Tolerance {
  double corner_m = 0.00635;  ///< how far a corner may be from its true place
  double level_m = 0.003175;  ///< how far a corner may be from level
  double part_m = 0.0015875;  ///< what a saw cut and a joint forgive
  double confidence = 0.95;   ///< chance a verdict must reach
};

/// `[staking]` of the job file: the chances weighed against one another when
/// numbers disagree.
struct Staking {
  double spread_m =
      0.003175;             ///< standard deviation of a stake's place, each way, when all went well
  double misread = 0.02;    ///< chance that any one reading is a slip
  double misplaced = 0.05;  ///< chance that any one stake stands wrong
};

}  // namespace stakewright::base
