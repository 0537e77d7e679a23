// The program beside this one that draws: it alone loads the drawing libraries.
#pragma once

#include <exception>
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

/// The program has said on stderr what is wrong, and nothing is to be added.
class AlreadyTold : public std::exception {
 public:
  [[nodiscard]] const char* what() const noexcept override { return "told on stderr"; }
};

/// What it prints on stdout when it is run with the arguments.
/// Throws AlreadyTold when it refuses, and InputError as `run_draw_program`.
std::string output_of_draw_program(const std::vector<std::string>& arguments);

}  // namespace stakewright::cli
