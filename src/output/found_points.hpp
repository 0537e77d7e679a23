// The corners and the center pin as a check found them, on the plan.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"

namespace stakewright::output {

struct FoundPoint {
  std::string label;
  base::Point planned;
  /// In the frame of the plan, laid as the verdicts are; empty when the place is not known.
  std::optional<base::Point> found;
  std::string verdict;                  ///< "in", "OUT", "undecided"; empty for the center pin
  std::optional<double> height_m = {};  ///< by rods, above the datum of the heights
};

/// Corners in label order, then the center pin.
std::vector<FoundPoint> found_points(const job::Job& job, const check::Findings& findings);

}  // namespace stakewright::output
