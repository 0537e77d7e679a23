#include "stakewright/job/document.hpp"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>
#include <tuple>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::job {
namespace {

// The TOML library takes a table apart by calling itself once a level, and a dotted key makes a
// level a part: tens of thousands of parts run out of stack.  No job has so many full stops.
constexpr std::size_t kMostFullStops = 5000;

// Deeper than any key of a job; lists in lists are as deep as the library reads them.
constexpr int kMostLevels = 20;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Full stops that may join parts of a key: all but the one inside a number.
std::size_t full_stops(std::string_view text) {
  std::size_t count = 0;
  bool stop_in_number = false;
  for (std::size_t k = 0; k < text.size(); ++k) {
    if (text[k] == '.') {
      const bool in_number =
          k > 0 && k + 1 < text.size() && is_digit(text[k - 1]) && is_digit(text[k + 1]);
      if (!in_number || stop_in_number) ++count;
      stop_in_number = in_number;
    } else if (!is_digit(text[k])) {
      stop_in_number = false;
    }
  }
  return count;
}

Value value_of(const toml::node& node, int levels);

int line_of(const toml::source_region& region) { return static_cast<int>(region.begin.line); }

Table table_of(const toml::table& table, int levels) {
  // The library sorts by key; a job's lines and pins keep the order they were written in.
  std::vector<std::pair<toml::source_position, Entry>> placed;
  for (const auto& [key, node] : table) {
    const int line = line_of(key.source());
    placed.push_back({key.source().begin, {std::string(key.str()), line, value_of(node, levels)}});
  }
  std::stable_sort(placed.begin(), placed.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  Table result;
  for (auto& [place, entry] : placed) result.entries.push_back(std::move(entry));
  return result;
}

List list_of(const toml::array& array, int levels) {
  List result;
  for (const toml::node& node : array) result.push_back(value_of(node, levels));
  return result;
}

Value value_of(const toml::node& node, int levels) {
  Value result;
  result.line = line_of(node.source());
  if (levels > kMostLevels)
    throw base::InputError(
        fmt::format("line {}: read tables or lists more than {} deep", result.line, kMostLevels));
  if (const auto* text = node.as_string()) {
    result.held = text->get();
  } else if (const auto* whole = node.as_integer()) {
    result.held = whole->get();
  } else if (const auto* decimal = node.as_floating_point()) {
    result.held = decimal->get();
  } else if (const auto* truth = node.as_boolean()) {
    result.held = truth->get();
  } else if (const auto* array = node.as_array()) {
    result.held = list_of(*array, levels + 1);
  } else if (const auto* table = node.as_table()) {
    result.held = table_of(*table, levels + 1);
  } else {
    result.held = Moment{};
  }
  return result;
}

std::string printable(std::string_view text) {
  return base::is_printable(text) ? std::string(text) : base::in_quotes(text);
}

}  // namespace

Table document_from_text(std::string_view text, const std::string& name) {
  if (full_stops(text) > kMostFullStops)
    throw base::InputError(
        fmt::format("{}: read more than {} full stops outside numbers; "
                    "accepted: a file with fewer",
                    name, kMostFullStops));
  try {
    return table_of(toml::parse(text), 0);
  } catch (const toml::parse_error& error) {
    throw base::InputError(fmt::format("{}, line {}: {}; accepted: TOML, as in key = \"value\"",
                                       name, line_of(error.source()),
                                       printable(error.description())));
  } catch (const base::InputError& error) {
    throw base::InputError(fmt::format("{}, {}", name, error.what()));
  }
}

}  // namespace stakewright::job
