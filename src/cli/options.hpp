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
  std::string readings;              ///< path of the readings file or the filled form; empty: none
  std::string output;                ///< -o; empty: none
  bool json = false;                 ///< one JSON object on stdout, nothing else
  std::optional<base::Units> units;  ///< what is shown; the job's units without it
  std::string round;                 ///< of the readings; empty: the latest
  std::string since;                 ///< check: the round to compare with; empty: none
  std::string paper;                 ///< form, drawings: "letter" or "a4"; empty: by units
  std::string drawing;               ///< name of the one drawing wanted; empty: by the file's kind
  int width_px = 0;                  ///< of a .png; 0: the usual one
  bool corrections = false;          ///< check: show the corrections of each reading
  std::string with;                  ///< layout: the tape to set out with; empty: none
  std::string temperature;           ///< layout: of that tape; empty: its standard one
  std::string supports;              ///< layout: of that tape between its ends; empty: none
  std::string pull;                  ///< layout: on that tape; empty: its standard one
  bool show_planned = false;         ///< form: print planned lengths on the reading sheet
  std::string tapes;                 ///< form: "plan" or "all"; empty: by the number of sides
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

/// Whether the command makes a drawing or a form: -o names a .pdf, .svg or .png.
bool draws(const Options& options);

/// Nothing to run: a text was asked for (--help, --version).
struct Text {
  std::string text;
};

/// Reads the command line, program name first.
/// Throws base::InputError, saying what was read and what is accepted; also for an ending of -o
/// that the command does not write, and for an option that it would leave aside.
std::variant<Options, Text> options_from(int argc, const char* const* argv);

}  // namespace stakewright::cli
