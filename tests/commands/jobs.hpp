// Small job and readings files to run the commands on.
#pragma once

#include <string>

namespace stakewright::tests {

/// A hexagon 16 ft across flats, in feet and inches, with a roof.
std::string hexagon_job();

/// The same with the `[plan]` table replaced.
std::string hexagon_job_with_plan(const std::string& plan);

/// All sides, diagonals and corner radii of it, in millimeters, each exactly as planned
/// but for the corner `moved`, which stands `outward_m` outward.
std::string hexagon_readings(char moved = 'A', double outward_m = 0.0);

}  // namespace stakewright::tests
