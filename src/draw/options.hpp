// The command line of the drawing program as a plain struct.
#pragma once

#include <optional>
#include <string>
#include <variant>

#include "stakewright/base/length.hpp"
#include "stakewright/forms/field_form.hpp"
#include "stakewright/forms/reading_rows.hpp"

namespace stakewright::draw {

/// What is asked for: a drawing, named for the command that asks for it, or a filled form's
/// readings.
enum class What { form, layout, check, carry, readings };

inline constexpr int kUsualWidth_px = 1200;

struct Options {
  What what = What::form;
  std::string job;  ///< path of the job file
  /// Path of the readings file or the filled form; empty: none.  Of a form: for its correction.
  std::string readings;
  std::string output;                   ///< path of the file to write
  std::optional<base::Units> units;     ///< without it the job's
  std::optional<forms::Paper> paper;    ///< without it by the units
  bool show_planned = false;            ///< form
  std::optional<forms::TapeSet> tapes;  ///< form; without it by the number of sides
  std::string round;                    ///< of the readings; empty: the latest
  std::string drawing;                  ///< the one drawing wanted; empty: all, or the first
  int width_px = kUsualWidth_px;        ///< of a PNG
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
