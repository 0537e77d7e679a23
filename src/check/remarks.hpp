// Plain sentences beside the figures.
#pragma once

#include <string>
#include <vector>

#include "places.hpp"

namespace stakewright::check {

/// "the tape B-D", "the laser reading O-A", "the angle A-O-B".
std::string reading_name(const adjustment::Network& network, std::size_t reading);

/// The size of an error in a reading: a length, or an angle in words.
std::string size_words(const readings::Observation& reading, double size, base::Units units);

/// Per reading left out one sentence: why, and what happens to the verdict when it is kept.
std::vector<std::string> exclusion_remarks(const Input& input, const Findings& findings);

/// Remarks on everything else that the verdict and the tables do not show by themselves.
std::vector<std::string> site_remarks(const Input& input, const Findings& findings);

}  // namespace stakewright::check
