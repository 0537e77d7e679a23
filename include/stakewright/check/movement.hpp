// One round of readings against an earlier one.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "stakewright/base/fact.hpp"
#include "stakewright/placement/movement.hpp"

namespace stakewright::check {

/// Which stakes moved between two rounds.
struct RoundsCompared {
  std::string since;                ///< name of the earlier round
  std::vector<std::string> labels;  ///< of the stakes compared: the corners, then the center pin
  std::optional<placement::Movement> movement;  ///< empty when the rounds cannot be compared
  bool tied = false;                            ///< compared against known points
  bool scattered = false;  ///< the readings scatter more than stated, and the tests allow for it
  std::optional<base::Fact> why_not;  ///< where they cannot be compared
};

}  // namespace stakewright::check
