// What stands around the polygon: strings and batter boards, and outlines that
// no line of the job may cross.
#pragma once

#include <string>
#include <vector>

#include "stakewright/layout/plan.hpp"

namespace stakewright::layout {

/// One string: a side line drawn out past both its corners to batter boards.
struct String {
  std::string side;         ///< "A-B"
  base::Point nail_before;  ///< on the board beyond the first corner
  base::Point nail_after;   ///< on the board beyond the second corner
  double setback_m = 0.0;   ///< nail to its corner, along the string
  double length_m = 0.0;    ///< nail to nail
};

/// Boards stand at least this far outside the outermost line: nothing is to bear on the edge of a
/// dig.  2 ft, as 29 CFR 1926.651(j)(2) keeps loose material from the edge of an excavation.
inline constexpr double kBoardBeyondLine_m = 0.6096;

/// And at least this far outside the plan line, where a dig was not given.  4 ft: common practice,
/// no source.
inline constexpr double kBoardBeyondPlanLine_m = 1.2192;

/// Strings for every side.  The setback is the plan's, or the least one that stands the nails clear
/// of the lines as above when the plan gives none.
std::vector<String> strings(const Plan& plan);

/// What a crew should know of these strings: too flat a crossing, boards inside a line, too long.
std::vector<std::string> string_remarks(const Plan& plan);

/// Name of the plan line among the lines of the job.
inline constexpr const char* kPlanLineName = "plan line";

/// How one line of the job lies to one outline.  A line counts with the ground within it: an
/// outline to keep outside of is crossed also when it lies wholly within the line.
struct Clearance {
  std::string line;
  std::string outline;
  double distance_m = 0.0;             ///< least distance; 0 when it crosses
  bool crosses = false;                ///< on the wrong side, or across it; touching is allowed
  double beyond_m = 0.0;               ///< how far the one reaches past the other, to 0.01 mm: the
                                       ///< larger of the line past the outline, and of the outline
                                       ///< into the ground within the line
  std::vector<base::Point> crossings;  ///< where the two meet; none when wholly on the wrong side
};

/// Throws InputError, naming the outline, when it has fewer than three different corners, or
/// crosses or touches itself.
void demand_outline(const KeepClear& keep_clear);

/// Every line (the plan line first) against every outline, outline by outline.
/// Throws InputError as `demand_outline`.
std::vector<Clearance> clearances(const Plan& plan);

/// A pin on ground that a line encloses.
struct PinWithin {
  std::string pin;
  std::string line;
  double depth_m = 0.0;  ///< to the nearest side of the line
};

/// The pins that stand within lines of `[lines]`, pin by pin.  On a line is not within it.
std::vector<PinWithin> pins_within(const Plan& plan);

}  // namespace stakewright::layout
