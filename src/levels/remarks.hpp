// Plain sentences on what the rod readings leave open.
#pragma once

#include <string>
#include <vector>

#include "stakewright/levels/levels.hpp"

namespace stakewright::levels {

std::vector<std::string> remarks(const Question& question, const Levels& levels);

}  // namespace stakewright::levels
