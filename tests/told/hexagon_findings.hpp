// Findings of a hexagon made by hand, for tests of what is said about them.
#pragma once

#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"

namespace stakewright::tests {

inline constexpr double kInch_m = 0.0254;
inline constexpr double kFoot_m = 0.3048;

/// Six corners A to F, the center pin O; fifteen tapes' room but three readings: A–C, B–D, D–F.
/// Every corner in, nothing left out.
check::Findings hexagon_all_in();

/// The same with D 7/8 in outward and 1/8 in clockwise, its move held at B and F,
/// and A–C reading 1 ft too long and left out.
check::Findings hexagon_d_out();

job::Job hexagon_job();

}  // namespace stakewright::tests
