// Which program made a result.
#pragma once

#include <string>

namespace stakewright::results {

/// Version of the program, as every result carries it.
std::string version();

}  // namespace stakewright::results
