// Readers of single values; declared in section.hpp.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "section.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::job {
namespace {

[[noreturn]] void refuse(const Value& value, const std::string& accepted) {
  throw base::InputError(fmt::format("read {}; accepted: {}", words_of(value), accepted));
}

std::string decimal_text(double value) {
  std::string text = fmt::format("{}", value);
  if (text.find_first_not_of("-0123456789") == std::string::npos) text += ".0";
  return text;
}

double within(const Value& value, double read, const Range& range) {
  if (!range.has(read)) refuse(value, range.words);
  return read;
}

}  // namespace

bool Range::has(double value) const {
  const bool above = with_least ? value >= least : value > least;
  const bool below = with_most ? value <= most : value < most;
  return above && below;  // false for what is not a number
}

std::string words_of(const Value& value) {
  struct Words {
    std::string operator()(const std::string& text) const { return base::in_quotes(text); }
    std::string operator()(std::int64_t whole) const { return fmt::format("\"{}\"", whole); }
    std::string operator()(double decimal) const {
      return fmt::format("\"{}\"", decimal_text(decimal));
    }
    std::string operator()(bool truth) const { return fmt::format("\"{}\"", truth); }
    std::string operator()(const Moment&) const { return "a date or time"; }
    std::string operator()(const List&) const { return "a list"; }
    std::string operator()(const Table&) const { return "a table"; }
  };
  return std::visit(Words{}, value.held);
}

std::string line_of_text(const Value& value, std::size_t most) {
  const auto* text = std::get_if<std::string>(&value.held);
  if (text == nullptr || !base::is_printable(*text) || base::character_count(*text) > most)
    refuse(value, fmt::format("text on one line, up to {} characters", most));
  return *text;
}

void demand_name(const std::string& name) {
  if (name.empty() || !base::is_printable(name) || base::character_count(name) > kLongestName ||
      name.front() == ' ' || name.back() == ' ' || name.front() == '#')
    throw base::InputError(fmt::format(
        "read {}; accepted: a name of 1 to {} characters, no space at either end, no # in front",
        base::in_quotes(name), kLongestName));
}

std::string name_from(const Value& value) {
  const auto* text = std::get_if<std::string>(&value.held);
  if (text == nullptr) refuse(value, "a name in quotes");
  demand_name(*text);
  return *text;
}

int whole_number(const Value& value, int least, int most) {
  const auto* whole = std::get_if<std::int64_t>(&value.held);
  if (whole == nullptr || *whole < least || *whole > most)
    refuse(value, fmt::format("a whole number from {} to {}", least, most));
  return static_cast<int>(*whole);
}

double number_in(const Value& value, const Range& range) {
  if (const auto* whole = std::get_if<std::int64_t>(&value.held))
    return within(value, static_cast<double>(*whole), range);
  if (const auto* decimal = std::get_if<double>(&value.held)) return within(value, *decimal, range);
  refuse(value, range.words);
}

std::string text_or_number(const Value& value, const char* accepted) {
  if (const auto* text = std::get_if<std::string>(&value.held)) return *text;
  if (const auto* whole = std::get_if<std::int64_t>(&value.held)) return fmt::format("{}", *whole);
  if (const auto* decimal = std::get_if<double>(&value.held)) return decimal_text(*decimal);
  refuse(value, accepted);
}

double length_in(const Value& value, base::Units units, const Range& range) {
  return within(value, base::length_m_from_text(text_or_number(value, range.words), units), range);
}

double area_in(const Value& value, base::Units units, const Range& range) {
  return within(value, base::area_m2_from_text(text_or_number(value, range.words), units), range);
}

double quantity_in(const Value& value, base::Quantity quantity, const Range& range) {
  const std::string text = text_or_number(value, range.words);
  return within(value, base::quantity_from_text(text, quantity), range);
}

base::Point point_from(const Value& value, base::Units units) {
  constexpr const char* accepted = "two lengths, right and forward, as in [\"-12ft\", \"10ft\"]";
  const List& list = list_from(value, accepted);
  if (list.size() != 2) refuse(value, accepted);
  const Range any{-base::kLongestLength_m, base::kLongestLength_m, true, true, accepted};
  return {length_in(list[0], units, any), length_in(list[1], units, any)};
}

const List& list_from(const Value& value, const char* accepted) {
  if (const auto* list = std::get_if<List>(&value.held)) return *list;
  refuse(value, accepted);
}

void refuse_word(const Value& value, const std::vector<std::string_view>& words) {
  std::vector<std::string> quoted;
  quoted.reserve(words.size());
  for (const std::string_view word : words) quoted.push_back(base::in_quotes(word));
  refuse(value, fmt::format("{}", fmt::join(quoted, ", ")));
}

}  // namespace stakewright::job
