#include "scan.hpp"

#include <algorithm>
#include <charconv>
#include <limits>

namespace stakewright::base {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool starts_with(std::string_view text, std::string_view mark) {
  return text.size() >= mark.size() && std::equal(mark.begin(), mark.end(), text.begin(),
                                                  [](char m, char t) { return m == lower(t); });
}

// Out of a double's range: too long a figure is infinite, too small a one is nothing.
double beyond_double(std::string_view digits) {
  const std::string_view whole = digits.substr(0, digits.find('.'));
  const bool large = whole.find_first_not_of('0') != std::string_view::npos;
  return large ? std::numeric_limits<double>::infinity() : 0.0;
}

}  // namespace

void Scan::spaces() { rest_.remove_prefix(std::min(rest_.find_first_not_of(" \t"), rest_.size())); }

bool Scan::take(std::initializer_list<std::string_view> marks) {
  for (const std::string_view mark : marks) {
    if (!starts_with(rest_, mark)) continue;
    rest_.remove_prefix(mark.size());
    return true;
  }
  return false;
}

std::optional<Number> Scan::number() {
  std::size_t end = 0;
  while (end < rest_.size() && is_digit(rest_[end])) ++end;
  const std::size_t before_point = end;
  bool whole = true;
  if (end < rest_.size() && rest_[end] == '.') {
    whole = false;
    ++end;
    while (end < rest_.size() && is_digit(rest_[end])) ++end;
    if (end == before_point + 1) return std::nullopt;  // "." and "5." are slips of the pen
  }
  if (end == 0) return std::nullopt;
  const std::string_view digits = rest_.substr(0, end);
  Number result{0.0, whole};
  const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), result.value,
                                    std::chars_format::fixed);
  if (read.ec == std::errc::result_out_of_range) result.value = beyond_double(digits);
  rest_.remove_prefix(end);
  return result;
}

bool take_minus(Scan& scan) {
  const bool minus = scan.take({"-", "\u2212"});
  scan.spaces();
  return minus;
}

}  // namespace stakewright::base
