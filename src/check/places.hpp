// Where the corners are found when some readings are left out, and how they lie on the plan.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "stakewright/check/check.hpp"

namespace stakewright::check {

struct Places {
  adjustment::Adjustment adjustment;
  std::optional<placement::Survey> survey;        ///< empty unless two corners are measured
  std::optional<placement::Placement> placement;  ///< fewest moves
};

/// Adjusts without the readings in `left_out` and lays the plan over what is found.  With none
/// left out the findings' own adjustment of all readings serves; the sums are not made again.
Places places(const Input& input, const Findings& findings,
              const std::vector<std::size_t>& left_out);

}  // namespace stakewright::check
