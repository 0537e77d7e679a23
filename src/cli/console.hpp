// The terminal: what goes to stdout, what goes to stderr, and what happens when
// nobody reads.
#pragma once

#include <string>
#include <string_view>

#include "text.hpp"

namespace stakewright::cli {

/// Exit status of every command.
inline constexpr int kAllInTolerance = 0;
inline constexpr int kOutOfTolerance = 1;
inline constexpr int kBadInput = 2;
inline constexpr int kCannotTell = 3;

/// A pipe whose reader has gone away, or a file that may grow no further, must not end the
/// program with a signal: the failed write is told instead.
void outlive_failed_writes();

/// Bold headings only when stdout is a terminal that knows them and NO_COLOR is not set.
Emphasis emphasis_for_stdout();

/// Writes all of `text` to stdout.  A reader that has gone away (`| head`) is no
/// error: it has what it wanted, and the command's status stands.
/// Throws InputError when stdout cannot be written (disk full, closed).
void print(std::string_view text);

/// A sentence on stderr, wrapped; it opens with a capital and ends with a full stop.
void remark(std::string_view text);

/// `stakewright: …` on stderr.
void complain(std::string_view text);

}  // namespace stakewright::cli
