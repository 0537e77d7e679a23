// Plain sentences beside the figures.
#pragma once

#include <string>
#include <vector>

#include "places.hpp"

namespace stakewright::check {

/// "the tape B-D", "the laser reading O-A".
std::string reading_name(const adjustment::Network& network, std::size_t reading);

/// "A", "A and B", "A, B and C".
std::string joined(const std::vector<std::string>& names);

/// Per reading left out one sentence: why, and what happens to the verdict when it is kept.
std::vector<std::string> exclusion_remarks(const Input& input, const Findings& findings);

/// Remarks on everything else that the verdict and the tables do not show by themselves.
std::vector<std::string> site_remarks(const Input& input, const Findings& findings);

}  // namespace stakewright::check
