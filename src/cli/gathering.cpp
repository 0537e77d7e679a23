#include "gathering.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

namespace stakewright::cli {
namespace {

/// A list of places wider than this is told by its number, in columns.
constexpr std::size_t kWidestPlaces = 24;

using Places = std::vector<std::string>;

/// "B-C left 2" in its parts; `way` and `number` are empty for "B-C" or "C".
struct NumberedPlace {
  std::string side;
  std::string way;
  std::string number;
};

NumberedPlace in_parts(const std::string& at) {
  const std::size_t first = at.find(' ');
  const std::size_t second = at.rfind(' ');
  if (first == std::string::npos || first == second) return {at, "", ""};
  return {at.substr(0, first), at.substr(first + 1, second - first - 1), at.substr(second + 1)};
}

/// `each side: 1, 2 left and right` when the places are numbered alike, left and right, on each
/// of `sides`; else nothing.
std::string on_each_side(const Places& places, const std::set<std::string>& sides) {
  std::map<std::string, std::set<std::string>> numbers;  // by side and way
  std::set<std::string> seen;
  for (const std::string& at : places) {
    const NumberedPlace place = in_parts(at);
    if (place.number.empty()) return "";
    seen.insert(place.side);
    numbers[place.side + ' ' + place.way].insert(place.number);
  }
  const auto& first = numbers.begin()->second;
  const bool alike = std::all_of(numbers.begin(), numbers.end(),
                                 [&](const auto& entry) { return entry.second == first; });
  if (!alike || seen != sides || numbers.size() != 2 * sides.size()) return "";
  return fmt::format("each side: {} left and right", fmt::join(first, ", "));
}

std::string few_or_count(const Places& places) {
  const std::string list = fmt::format("{}", fmt::join(places, ", "));
  return display_width(list) <= kWidestPlaces ? list : fmt::format("{} of them", places.size());
}

std::string places_words(const Places& places, const Places& all_of_kind) {
  std::set<std::string> sides;
  for (const std::string& at : all_of_kind) sides.insert(in_parts(at).side);
  if (places.size() > 1) {
    const std::string each = on_each_side(places, sides);
    if (!each.empty()) return each;
    if (places.size() == all_of_kind.size()) return fmt::format("all {}", places.size());
  }
  return few_or_count(places);
}

}  // namespace

std::vector<Row> gathered(const std::vector<PlacedRow>& placed, Rows which) {
  std::vector<PlacedRow> unlike;
  std::vector<Places> places;
  std::map<std::string, Places> of_kind;
  std::vector<std::string> kinds;
  for (const PlacedRow& row : placed) {
    if (of_kind[row.kind].empty()) kinds.push_back(row.kind);
    of_kind[row.kind].push_back(row.at);
    const auto alike = std::find_if(unlike.begin(), unlike.end(), [&](const PlacedRow& other) {
      return other.kind == row.kind && other.rest == row.rest;
    });
    if (alike == unlike.end()) {
      unlike.push_back(row);
      places.push_back({row.at});
    } else {
      places[static_cast<std::size_t>(alike - unlike.begin())].push_back(row.at);
    }
  }
  std::vector<Row> rows;
  for (const std::string& kind : kinds) {
    for (std::size_t i = 0; i < unlike.size(); ++i) {
      if (unlike[i].kind != kind) continue;
      Row row{kind, which == Rows::every ? places_words(places[i], of_kind[kind])
                                         : few_or_count(places[i])};
      row.insert(row.end(), unlike[i].rest.begin(), unlike[i].rest.end());
      rows.push_back(std::move(row));
    }
  }
  return rows;
}

}  // namespace stakewright::cli
