// Every point of a plan that a tape can be held at, by its label.
#pragma once

#include <map>
#include <string>

#include "stakewright/layout/plan.hpp"

namespace stakewright::forms {

/// Corners, center pin and site pins.
std::map<std::string, base::Point> points_by_label(const layout::Plan& plan);

}  // namespace stakewright::forms
