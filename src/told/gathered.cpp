#include "gathered.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <string>

#include "stakewright/base/text.hpp"

namespace stakewright::told {
namespace {

using base::Count;
using base::Fact;
using base::List;
using base::Value;

/// A list of places longer than this is told by its number, in characters.
constexpr std::size_t kLongestPlaces = 24;

using Places = std::vector<roof::Place>;

/// Rows of one kind that are told alike but for their place.
struct Group {
  const PlacedRow* first = nullptr;
  std::string kind;
  std::vector<std::string> rest;
  Places places;
};

std::vector<Group> groups_of(const std::vector<PlacedRow>& placed, const wording::Voice& voice) {
  std::vector<Group> groups;
  for (const PlacedRow& row : placed) {
    Group one{&row, voice.text(row.kind), {}, {row.at}};
    for (const Value& cell : row.rest) one.rest.push_back(voice.text(cell));
    const auto alike = std::find_if(groups.begin(), groups.end(), [&one](const Group& group) {
      return group.kind == one.kind && group.rest == one.rest;
    });
    if (alike == groups.end())
      groups.push_back(std::move(one));
    else
      alike->places.push_back(row.at);
  }
  return groups;
}

/// The numbers at each hand of each of so many sides, where they are alike there; else none.
std::set<int> on_each_side(const Places& places, std::size_t sides) {
  std::map<roof::Place, std::set<int>> numbers;  // by side and hand
  for (const roof::Place& at : places) {
    if (at.number == 0) return {};
    numbers[at.on(at.hand)].insert(at.number);
  }
  const auto& first = numbers.begin()->second;
  const bool alike = std::all_of(numbers.begin(), numbers.end(),
                                 [&](const auto& entry) { return entry.second == first; });
  return alike && numbers.size() == 2 * sides ? first : std::set<int>{};
}

Value few_or_count(const Places& places, const wording::Voice& voice) {
  List list{{}, List::Joint::listed};
  for (const roof::Place& at : places) list.items.push_back(place_of(at));
  if (base::character_count(voice.text(list)) <= kLongestPlaces) return list;
  return Fact{"places.some", {{"count", Count{places.size()}}}};
}

Value places_told(const Places& places, const Places& all_of_kind, const wording::Voice& voice) {
  if (places.size() < 2) return few_or_count(places, voice);
  std::set<roof::Place> sides;
  for (const roof::Place& at : all_of_kind) sides.insert(at.whole());
  List numbers{{}, List::Joint::listed};
  for (const int number : on_each_side(places, sides.size()))
    numbers.items.emplace_back(Count{static_cast<std::size_t>(number)});
  if (!numbers.items.empty()) return Fact{"places.each_side", {{"numbers", std::move(numbers)}}};
  if (places.size() == all_of_kind.size())
    return Fact{"places.all", {{"count", Count{places.size()}}}};
  return few_or_count(places, voice);
}

std::vector<Row> rows_of(const std::vector<PlacedRow>& placed, const wording::Voice& voice,
                         Rows which, bool counted) {
  const std::vector<Group> groups = groups_of(placed, voice);
  std::map<std::string, Places> of_kind;
  std::vector<std::string> kinds;
  for (const Group& group : groups) {
    Places& places = of_kind[group.kind];
    if (places.empty()) kinds.push_back(group.kind);
    places.insert(places.end(), group.places.begin(), group.places.end());
  }
  std::vector<Row> rows;
  for (const std::string& kind : kinds) {
    for (const Group& group : groups) {
      if (group.kind != kind) continue;
      Row row{group.first->kind, which == Rows::every
                                     ? places_told(group.places, of_kind[kind], voice)
                                     : few_or_count(group.places, voice)};
      if (counted) row.emplace_back(Count{group.places.size()});
      row.insert(row.end(), group.first->rest.begin(), group.first->rest.end());
      rows.push_back(std::move(row));
    }
  }
  return rows;
}

}  // namespace

std::vector<Row> gathered(const std::vector<PlacedRow>& placed, const wording::Voice& voice,
                          Rows rows) {
  return rows_of(placed, voice, rows, false);
}

std::vector<Row> gathered_and_counted(const std::vector<PlacedRow>& placed,
                                      const wording::Voice& voice) {
  return rows_of(placed, voice, Rows::every, true);
}

}  // namespace stakewright::told
