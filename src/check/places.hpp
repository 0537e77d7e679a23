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

/// Adjusts without the readings in `left_out` and lays the plan over what is found.
Places places(const Input& input, const adjustment::Network& network,
              const std::vector<std::size_t>& left_out);

/// The plan laid over what an adjustment found.
Places laid_over(const Input& input, const adjustment::Network& network,
                 adjustment::Adjustment adjustment);

}  // namespace stakewright::check
