// Draws the field form of a job and writes it.
#pragma once

#include <string>
#include <vector>

#include "options.hpp"

namespace stakewright::draw {

/// Throws base::InputError for what the user got wrong; nothing is written then.
/// Returns remarks for the user, none of them a reason to stop.
std::vector<std::string> write_form(const Options& options);

}  // namespace stakewright::draw
