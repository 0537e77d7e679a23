// The command line of the drawing program as a plain struct.
#pragma once

#include <optional>
#include <string>
#include <variant>

#include "stakewright/base/length.hpp"
#include "stakewright/forms/field_form.hpp"
#include "stakewright/forms/reading_rows.hpp"

namespace stakewright::draw {

struct Options {
  std::string job;                    ///< path of the job file
  std::string readings;               ///< path of a readings file; empty: none
  std::string round;                  ///< of the readings; empty: the latest
  std::string output;                 ///< path of the PDF to write
  std::optional<base::Units> units;   ///< without it the job's
  std::optional<forms::Paper> paper;  ///< without it by the units
  bool show_planned = false;
  std::optional<forms::TapeSet> tapes;  ///< without it by the number of sides
  std::string language = "en";          ///< of the wording
  std::string forms;                    ///< folder of wording files; empty: those built in
};

/// Nothing to draw: a text was asked for (--help, --version).
struct Text {
  std::string text;
};

/// Reads the command line, program name first.
/// Throws base::InputError, saying what was read and what is accepted.
std::variant<Options, Text> options_from(int argc, const char* const* argv);

}  // namespace stakewright::draw
