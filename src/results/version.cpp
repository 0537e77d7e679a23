#include "stakewright/results/version.hpp"

namespace stakewright::results {

std::string version() { return STAKEWRIGHT_VERSION; }

}  // namespace stakewright::results
