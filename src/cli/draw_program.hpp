// The program beside this one that draws: it alone loads the drawing libraries.
#pragma once

#include <exception>
#include <string>

namespace stakewright::cli {

/// Looked for beside this executable, then in the installation's libexec folder; never on PATH.
inline constexpr const char* kDrawProgram = "stakewright-draw";

/// `stakewright-draw --read-form JOB FORM` prints what was typed into a filled form as CSV.  The
/// names stand in fixed places, so one that begins with a dash is a name.
inline constexpr const char* kReadForm = "--read-form";

/// Goes on as that program, with the same words and environment.
/// Throws InputError, saying where it was looked for, when it is not there, and when it cannot be
/// started.
[[noreturn]] void become_draw_program(char** argv);

/// The program has said on stderr what is wrong, and nothing is to be added.
class AlreadyTold : public std::exception {
 public:
  [[nodiscard]] const char* what() const noexcept override { return "told on stderr"; }
};

/// What was typed into a filled form, as a readings file.  It is read in a process of its own,
/// which limits what a file from outside may cost. Throws AlreadyTold when that refuses, and
/// InputError as `become_draw_program`.
std::string csv_of_filled_form(const std::string& job, const std::string& form);

}  // namespace stakewright::cli
