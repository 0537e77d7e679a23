// One way of leaving readings out, adjusted and judged corner by corner.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "stakewright/check/check.hpp"

namespace stakewright::check {

struct Judged {
  adjustment::Adjustment adjustment;
  std::optional<placement::Survey> survey;        ///< empty without two measured corners
  std::optional<placement::Placement> placement;  ///< fewest moves
};

/// Adjusts the network without the readings in `left_out` and lays the plan over what is found.
Judged judge(const layout::Plan& plan, const base::Tolerance& tolerance,
             const adjustment::Network& network, const std::vector<std::size_t>& left_out);

/// Whether every corner has the same verdict in both.
bool same_verdicts(const Judged& one, const Judged& other);

/// The sets of misread readings that together hold nearly all the chance.
std::vector<adjustment::SlipSet> leading_sets(const adjustment::SlipTest& slips);

/// Out when a corner is out; in when all are in; else undecided.
Verdict verdict_of(const adjustment::Adjustment& adjustment,
                   const std::optional<placement::Placement>& placement);

/// Found corners and the pin, turned and shifted back onto the plan.
roof::FoundCorners in_the_plans_frame(const Findings& findings);

}  // namespace stakewright::check
