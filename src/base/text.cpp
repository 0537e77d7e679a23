#include "stakewright/base/text.hpp"

#include <fmt/format.h>
#include <utf8.h>

#include <algorithm>
#include <vector>

namespace stakewright::base {

Character first_character(std::string_view text) {
  const char* place = text.data();
  try {
    const char32_t code = utf8::next(place, text.data() + text.size());
    return {code, static_cast<std::size_t>(place - text.data()), true};
  } catch (const utf8::exception&) {
    return {static_cast<unsigned char>(text.front()), 1, false};
  }
}

bool changes_the_line(char32_t code) {
  return code < 0x20 || (code >= 0x7F && code <= 0x9F) || code == 0x061C ||
         (code >= 0x200B && code <= 0x200F) || (code >= 0x2028 && code <= 0x202E) ||
         (code >= 0x2060 && code <= 0x2069) || code == 0xFEFF;
}

std::string in_quotes(std::string_view text) {
  std::string result = "\"";
  std::size_t taken = 0;
  while (taken < text.size()) {
    const Character next = first_character(text.substr(taken));
    if (taken + next.bytes > kLongestQuote) break;
    if (!next.well_formed || next.code < 0x80) {
      const bool shown = next.well_formed && !changes_the_line(next.code);
      result += shown ? std::string(1, static_cast<char>(next.code))
                      : fmt::format("\\x{:02x}", static_cast<unsigned>(next.code));
    } else if (changes_the_line(next.code)) {
      result += fmt::format("\\u{:04x}", static_cast<unsigned>(next.code));
    } else {
      result += text.substr(taken, next.bytes);
    }
    taken += next.bytes;
  }
  result += taken < text.size() ? "...\"" : "\"";
  return result;
}

std::optional<std::size_t> first_byte_not_utf8(std::string_view text) {
  const auto* bad = utf8::find_invalid(text.begin(), text.end());
  if (bad == text.end()) return std::nullopt;
  return static_cast<std::size_t>(bad - text.begin());
}

std::size_t character_count(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t place = 0; place < text.size(); ++count)
    place += first_character(text.substr(place)).bytes;
  return count;
}

bool is_printable(std::string_view text) {
  for (std::size_t place = 0; place < text.size();) {
    const Character next = first_character(text.substr(place));
    if (!next.well_formed || changes_the_line(next.code)) return false;
    place += next.bytes;
  }
  return true;
}

std::string shown(std::string_view text) {
  return is_printable(text) ? std::string(text) : in_quotes(text);
}

std::string lower_case(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return text;
}

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) text += i + 1 == names.size() ? " and " : ", ";
    text += names[i];
  }
  return text;
}

// Optimal string alignment distance: Levenshtein's, with neighbors changed over as one edit.
std::size_t edits_between(std::string_view from, std::string_view to) {
  std::vector<std::size_t> before_last;
  std::vector<std::size_t> last(to.size() + 1);
  for (std::size_t j = 0; j <= to.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= from.size(); ++i) {
    std::vector<std::size_t> row(to.size() + 1, i);
    for (std::size_t j = 1; j <= to.size(); ++j) {
      const std::size_t replaced = last[j - 1] + (from[i - 1] == to[j - 1] ? 0 : 1);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, replaced});
      if (i > 1 && j > 1 && from[i - 1] == to[j - 2] && from[i - 2] == to[j - 1])
        row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
    before_last = std::move(last);
    last = std::move(row);
  }
  return last[to.size()];
}

std::string_view nearest(std::string_view from, const std::vector<std::string_view>& names) {
  const std::string_view start = from.substr(0, kLongestQuote);  // no name is longer
  return *std::min_element(names.begin(), names.end(), [start](auto a, auto b) {
    return edits_between(start, a) < edits_between(start, b);
  });
}

}  // namespace stakewright::base
