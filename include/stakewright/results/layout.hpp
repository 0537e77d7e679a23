// The layout of a job: stakes, tapes, the order of staking, lines, strings, clearances.
//
// Units: meters and radians.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "stakewright/job/job.hpp"
#include "stakewright/layout/radial.hpp"
#include "stakewright/layout/surroundings.hpp"
#include "stakewright/layout/swings.hpp"
#include "stakewright/readings/setting_out.hpp"

namespace stakewright::results {

/// The tape that a layout is set out with.
struct WithTape {
  readings::Instrument tape;
  readings::Held held;
  std::string words;  ///< `blue tape, at 35F and pulled 20lbf`, as it was asked for
};

/// Everything `stakewright layout` works out.
struct LayoutResult {
  std::vector<layout::Stake> stakes;  ///< corners, then the center pin
  std::vector<layout::Tape> tapes;
  layout::StakingOrder order;
  layout::Radial radial;
  /// Those of `[lines]`, and the roof's edge when the job has a roof: the outer face of its fascia.
  std::vector<layout::LineFigures> lines;
  std::vector<layout::String> strings;
  std::vector<layout::Clearance> clearances;  ///< of all these lines
  std::vector<layout::PinWithin> pins_within;
  std::optional<layout::PourVolumes> pour;  ///< of a job with [pour]
  std::optional<WithTape> with{};           ///< empty: true lengths only
};

/// Works out the layout of a job with its default tape.  The order's remarks go on with those of
/// the strings, then of pins in the way and of outlines that are crossed.
/// Throws InputError as `layout::staking_order`, `lines` and `clearances`.
LayoutResult layout_of(const job::Job& job);

}  // namespace stakewright::results
