#include "gathering.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

namespace stakewright::cli {
namespace {

/// A list of places wider than this is told by its number, in columns.
constexpr std::size_t kWidestPlaces = 24;

using Places = std::vector<roof::Place>;

/// Rows of one kind that are equal but for their place.
struct Group {
  std::string kind;
  Places places;
  Row rest;
};

std::vector<Group> groups_of(const std::vector<PlacedRow>& placed) {
  std::vector<Group> groups;
  for (const PlacedRow& row : placed) {
    const auto alike = std::find_if(groups.begin(), groups.end(), [&row](const Group& group) {
      return group.kind == row.kind && group.rest == row.rest;
    });
    if (alike == groups.end())
      groups.push_back({row.kind, {row.at}, row.rest});
    else
      alike->places.push_back(row.at);
  }
  return groups;
}

/// `each side: 1, 2 left and right` when the places are numbered alike, left and right, on each
/// of so many sides; else nothing.
std::string on_each_side(const Places& places, std::size_t sides) {
  std::map<roof::Place, std::set<int>> numbers;  // by side and hand
  for (const roof::Place& at : places) {
    if (at.number == 0) return "";
    numbers[at.on(at.hand)].insert(at.number);
  }
  const auto& first = numbers.begin()->second;
  const bool alike = std::all_of(numbers.begin(), numbers.end(),
                                 [&](const auto& entry) { return entry.second == first; });
  if (!alike || numbers.size() != 2 * sides) return "";
  return fmt::format("each side: {} left and right", fmt::join(first, ", "));
}

std::string few_or_count(const Places& places) {
  std::vector<std::string> texts;
  for (const roof::Place& at : places) texts.push_back(roof::text_from_place(at));
  const std::string list = fmt::format("{}", fmt::join(texts, ", "));
  return display_width(list) <= kWidestPlaces ? list : fmt::format("{} of them", places.size());
}

std::string places_words(const Places& places, const Places& all_of_kind) {
  std::set<roof::Place> sides;
  for (const roof::Place& at : all_of_kind) sides.insert(at.whole());
  if (places.size() > 1) {
    const std::string each = on_each_side(places, sides.size());
    if (!each.empty()) return each;
    if (places.size() == all_of_kind.size()) return fmt::format("all {}", places.size());
  }
  return few_or_count(places);
}

std::vector<Row> rows_of(const std::vector<PlacedRow>& placed, Rows which, bool counted) {
  std::map<std::string, Places> of_kind;
  std::vector<std::string> kinds;
  for (const PlacedRow& row : placed) {
    if (of_kind[row.kind].empty()) kinds.push_back(row.kind);
    of_kind[row.kind].push_back(row.at);
  }
  const std::vector<Group> groups = groups_of(placed);
  std::vector<Row> rows;
  for (const std::string& kind : kinds) {
    for (const Group& group : groups) {
      if (group.kind != kind) continue;
      Row row{kind, which == Rows::every ? places_words(group.places, of_kind[kind])
                                         : few_or_count(group.places)};
      if (counted) row.push_back(std::to_string(group.places.size()));
      row.insert(row.end(), group.rest.begin(), group.rest.end());
      rows.push_back(std::move(row));
    }
  }
  return rows;
}

}  // namespace

std::vector<Row> gathered(const std::vector<PlacedRow>& placed, Rows which) {
  return rows_of(placed, which, false);
}

std::vector<Row> gathered_and_counted(const std::vector<PlacedRow>& placed) {
  return rows_of(placed, Rows::every, true);
}

}  // namespace stakewright::cli
