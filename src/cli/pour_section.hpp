// The concrete of a job, as a section of the layout's report.
#pragma once

#include <string>

#include "reports.hpp"
#include "stakewright/layout/pour.hpp"

namespace stakewright::cli {

std::string pour_section(const layout::Pour& pour, const layout::PourVolumes& volumes,
                         const Shown& shown);

}  // namespace stakewright::cli
