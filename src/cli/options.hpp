// The command line as a plain struct.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>

#include "stakewright/base/length.hpp"
#include "stakewright/roof/what_if.hpp"

namespace stakewright::cli {

enum class Command { start, layout, tapes, form, check, carry };

struct Options {
  Command command = Command::layout;
  std::string job;                   ///< path of the job file
  std::string readings;              ///< path of the readings file; empty: none
  std::string output;                ///< -o; empty: none
  bool json = false;                 ///< one JSON object on stdout, nothing else
  std::optional<base::Units> units;  ///< what is shown; the job's units without it
  std::string round;                 ///< of the readings; empty: the latest
  std::string since;                 ///< check: the round to compare with; empty: none
  std::string paper;                 ///< form: "letter" or "a4"; empty: by units
  bool show_planned = false;         ///< form: print planned lengths on the reading sheet
  std::string language;              ///< of the report or the form; empty: English
  std::string forms;                 ///< folder of wording files; empty: those built in
  std::string slip;                  ///< tapes: size of slip to catch, a length; empty: by units
  /// tapes: shift to call out, a length; empty: by tolerance.  carry: of the corner; empty: by
  /// units
  std::string shift;
  std::size_t at_most = 0;       ///< tapes: pulls there is time for; 0: as many as it takes
  std::optional<roof::Way> way;  ///< carry: the way shown in full; without it, left as found
  bool sensitivity = false;      ///< carry: what one corner does
  bool cut_sheet = false;        ///< carry: what to buy and to saw
  bool all = false;              ///< carry: every piece, not what differs alone
};

/// Nothing to run: a text was asked for (--help, --version).
struct Text {
  std::string text;
};

/// Reads the command line, program name first.
/// Throws base::InputError, saying what was read and what is accepted.
std::variant<Options, Text> options_from(int argc, const char* const* argv);

}  // namespace stakewright::cli
