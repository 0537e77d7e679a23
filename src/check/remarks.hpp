// Plain sentences beside the figures: why a reading was left out and what
// keeping it would do, held stakes that are off themselves, contradictions.
#pragma once

#include <string>

#include "stakewright/check/check.hpp"

namespace stakewright::check {

/// Said when readings contradict each other but every likely way out gives the same verdicts.
std::string rivals_agree_remark();

/// Adds the remarks on finished findings.
void add_remarks(const Input& input, Findings& findings);

}  // namespace stakewright::check
