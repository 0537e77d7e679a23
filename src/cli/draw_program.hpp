// The program beside this one that draws: it alone loads the drawing libraries.
#pragma once

#include <string>
#include <vector>

#include "options.hpp"

namespace stakewright::cli {

/// Name of its executable.
inline constexpr const char* kDrawProgram = "stakewright-draw";

/// Runs it with the arguments and waits; what it prints goes where ours goes.
/// Returns its exit status.  Looked for beside this executable, then in the
/// installation's libexec folder, then on PATH.
/// Throws InputError when it is not there, cannot be started or is ended by a signal.
int run_draw_program(const std::vector<std::string>& arguments);

}  // namespace stakewright::cli
