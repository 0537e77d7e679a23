// How much memory and time a file from outside may take.
#pragma once

namespace stakewright::draw {

/// From here on the process has at most so much more; a form takes a hundredth of it.  Past the
/// memory, std::bad_alloc is thrown; past the time, the process says so and ends with exit 2.
void limit_what_a_file_can_cost();

}  // namespace stakewright::draw
