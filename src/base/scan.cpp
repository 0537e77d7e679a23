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

std::size_t digits_from(std::string_view text, std::size_t start) {
  std::size_t end = start;
  while (end < text.size() && is_digit(text[end])) ++end;
  return end - start;
}

// Bytes of "12", "12.36", ".5" at the front; none for "." and "5.", which are slips of the pen.
std::size_t decimal_bytes(std::string_view text) {
  const std::size_t whole = digits_from(text, 0);
  if (whole == text.size() || text[whole] != '.') return whole;
  const std::size_t after_point = digits_from(text, whole + 1);
  return after_point == 0 ? 0 : whole + 1 + after_point;
}

// Bytes of "e-6", "E6" at `start`.
std::size_t power_bytes(std::string_view text, std::size_t start) {
  if (start >= text.size() || lower(text[start]) != 'e') return 0;
  const bool sign = start + 1 < text.size() && (text[start + 1] == '-' || text[start + 1] == '+');
  const std::size_t digits = digits_from(text, start + (sign ? 2U : 1U));
  return digits == 0 ? 0 : digits + (sign ? 2U : 1U);
}

// Out of a double's range: too large a figure is infinite, too small a one is nothing.
double beyond_double(std::string_view digits) {
  const bool power = digits.find_first_of("eE") != std::string_view::npos;
  const bool small_power = digits.find('-') != std::string_view::npos;
  const std::string_view whole = digits.substr(0, digits.find('.'));
  const bool large = power ? !small_power : whole.find_first_not_of('0') != std::string_view::npos;
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

WrittenNumber Scan::taken(std::size_t bytes, bool whole) {
  const std::string_view digits = rest_.substr(0, bytes);
  rest_.remove_prefix(bytes);
  WrittenNumber result{0.0, whole};
  const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), result.value);
  if (read.ec == std::errc::result_out_of_range) result.value = beyond_double(digits);
  return result;
}

std::optional<WrittenNumber> Scan::number() {
  const std::size_t bytes = decimal_bytes(rest_);
  if (bytes == 0) return std::nullopt;
  return taken(bytes, digits_from(rest_, 0) == bytes);
}

std::optional<WrittenNumber> Scan::number_with_power() {
  const std::size_t bytes = decimal_bytes(rest_);
  if (bytes == 0) return std::nullopt;
  return taken(bytes + power_bytes(rest_, bytes), false);
}

bool take_minus(Scan& scan) {
  const bool minus = scan.take({"-", "\u2212"});
  scan.spaces();
  return minus;
}

}  // namespace stakewright::base
