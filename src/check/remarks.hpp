// What is remarked on beside the figures.
#pragma once

#include <vector>

#include "places.hpp"

namespace stakewright::check {

/// Per reading left out: why, and what happens to the verdict when it is kept.
std::vector<base::Fact> exclusion_remarks(const Input& input, const Findings& findings);

/// Everything else that the verdict and the tables do not show by themselves.
std::vector<base::Fact> site_remarks(const Input& input, const Findings& findings);

}  // namespace stakewright::check
