// Draws the plan, what was found, or the roof, and writes it.
#pragma once

#include <string>
#include <vector>

#include "options.hpp"

namespace stakewright::draw {

/// Throws base::InputError for what the user got wrong; nothing is written then.
/// Returns remarks for the user, none of them a reason to stop.
std::vector<std::string> write_pictures(const Options& options);

/// A remark when the project's face is not installed.
std::vector<std::string> remarks_on_the_face();

}  // namespace stakewright::draw
