// The command line of the drawing program as a plain struct.
#pragma once

#include <optional>
#include <string>
#include <variant>

#include "stakewright/base/length.hpp"
#include "stakewright/forms/field_form.hpp"

namespace stakewright::draw {

/// What is asked for.
enum class What { form, readings };

struct Options {
  What what = What::form;
  std::string job;                    ///< path of the job file
  std::string readings;               ///< path of the filled form
  std::string output;                 ///< path of the PDF to write
  std::optional<base::Units> units;   ///< without it the job's
  std::optional<forms::Paper> paper;  ///< without it by the units
  bool show_planned = false;
  std::string language = "en";  ///< of the wording
  std::string forms;            ///< folder of wording files; empty: those built in
};

/// Nothing to draw: a text was asked for (--help, --version).
struct Text {
  std::string text;
};

/// Reads the command line, program name first.
/// Throws base::InputError, saying what was read and what is accepted.
std::variant<Options, Text> options_from(int argc, const char* const* argv);

}  // namespace stakewright::draw
