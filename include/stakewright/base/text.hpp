// What a user wrote, made safe to print, and the check that it is text at all.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stakewright::base {

struct Character {
  char32_t code = 0;
  std::size_t bytes = 1;
  bool well_formed = false;  ///< else a byte that starts no character of UTF-8
};

/// The character at the front of a text, which is not empty.
Character first_character(std::string_view text);

/// Characters that move the cursor or turn the writing direction, and would let a file's text
/// repaint a terminal: C0 and C1 controls, line separators, direction marks, the byte-order mark.
bool changes_the_line(char32_t code);

/// Messages quote no more than this of what was read, in bytes.
inline constexpr std::size_t kLongestQuote = 40;

/// The text between double quotes, for a message: cut after `kLongestQuote` bytes (never inside
/// a character) and then ended by `...`; control characters, marks that turn the writing
/// direction and bytes that are not UTF-8 are written out (`\x1b`, `\u202e`).
std::string in_quotes(std::string_view text);

/// Offset of the first byte that is not well-formed UTF-8 (RFC 3629: no overlong forms, no
/// surrogates, nothing past U+10FFFF), or nothing when all of it is.
std::optional<std::size_t> first_byte_not_utf8(std::string_view text);

/// Number of Unicode characters of well-formed UTF-8; a byte that is not UTF-8 counts as one.
std::size_t character_count(std::string_view text);

/// Whether every character may be printed on one line: well-formed, no control character (tab
/// and line ends are control characters too), no mark that turns the writing direction.
bool is_printable(std::string_view text);

/// The text as it stands where it may be printed on one line; else as `in_quotes` has it.
std::string shown(std::string_view text);

/// A to Z as a to z; other characters as they are.
std::string lower_case(std::string text);

/// Names in a row: `A`, `A and B`, `A, B and C`; empty for none.
std::string joined(const std::vector<std::string>& names);

/// The least number of letters put in, taken out, replaced or changed over with a neighbor
/// that makes `from` into `to`.  By bytes.
std::size_t edits_between(std::string_view from, std::string_view to);

/// The one of `names`, not empty, that the fewest such edits make of `from`.
std::string_view nearest(std::string_view from, const std::vector<std::string_view>& names);

}  // namespace stakewright::base
