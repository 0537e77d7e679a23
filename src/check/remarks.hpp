// Plain sentences beside the figures.
#pragma once

#include <string>
#include <vector>

#include "places.hpp"

namespace stakewright::check {

/// "the tape B-D", "the laser reading O-A".
std::string reading_name(const adjustment::Network& network, std::size_t reading);

/// Per reading left out one sentence: why, and what happens to the verdict when it is kept.
std::vector<std::string> exclusion_remarks(const Input& input, const Findings& findings);

/// Remarks on everything else that the verdict and the tables do not show by themselves.
std::vector<std::string> site_remarks(const Input& input, const Findings& findings);

}  // namespace stakewright::check
