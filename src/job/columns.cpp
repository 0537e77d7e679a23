#include "columns.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "section.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::job {
namespace {

const Keys kColumns = {"kind",  "from",   "to",    "reading", "instrument",
                       "round", "note",   "at",    "sight",   "temperature",
                       "pull",  "burned", "slope", "supports"};

// More would bury the message.
constexpr std::size_t kMostNamesShown = 60;

[[noreturn]] void refuse(const std::string& file, const Row& header, const std::string& problem) {
  throw base::InputError(fmt::format("{}, line {}: {}", file, header.line, problem));
}

}  // namespace

bool Names::has(const std::string& name) const {
  return std::find(known_.begin(), known_.end(), name) != known_.end();
}

std::string Names::but_for_capitals(const std::string& name) const {
  const auto other = std::find_if(known_.begin(), known_.end(), [&](const std::string& known) {
    return base::lower_case(name) == base::lower_case(known);
  });
  return other == known_.end() ? "" : *other;
}

void Names::demand(const std::string& name) const {
  if (has(name)) return;
  const std::string other = but_for_capitals(name);
  const std::string meant =
      other.empty() ? "" : fmt::format("; did you mean {}?", base::in_quotes(other));
  throw base::InputError(
      fmt::format("read {}; accepted: {}{}", base::in_quotes(name), listed(), meant));
}

std::string Names::listed() const {
  const std::size_t shown = std::min(known_.size(), kMostNamesShown);
  const std::vector<std::string> first(known_.begin(),
                                       known_.begin() + static_cast<std::ptrdiff_t>(shown));
  return fmt::format("{}{}", fmt::join(first, ", "), shown < known_.size() ? " ..." : "");
}

Columns::Columns(const Row& header, const std::string& file) {
  for (std::size_t k = 0; k < header.fields.size(); ++k) {
    const std::string name = base::lower_case(header.fields[k]);
    if (name.empty()) continue;
    if (std::find(kColumns.begin(), kColumns.end(), name) == kColumns.end())
      refuse(file, header,
             fmt::format("unknown column {}; the nearest known column is {}; accepted: {}",
                         base::in_quotes(header.fields[k]), nearest_key(name, kColumns),
                         fmt::join(kColumns, ", ")));
    if (!by_name_.emplace(name, k).second)
      refuse(file, header, fmt::format("read column {} twice; accepted: once", name));
  }
  for (const char* needed : {"from", "to", "reading"})
    if (by_name_.count(needed) == 0)
      refuse(file, header,
             fmt::format("column {} is missing; accepted: from, to and reading, with any of {}",
                         needed, fmt::join(kColumns, ", ")));
}

const std::string& Columns::field(const Row& row, std::string_view column) const {
  static const std::string nothing;
  const auto place = by_name_.find(column);
  if (place == by_name_.end() || place->second >= row.fields.size()) return nothing;
  return row.fields[place->second];
}

std::string Columns::place(const Row& row, std::string_view column) const {
  const auto place = by_name_.find(column);
  if (place != by_name_.end() && place->second < row.places.size())
    return row.places[place->second];
  return fmt::format("line {}, column {}", row.line, column);
}

void Columns::demand_no_more(const Row& row) const {
  for (std::size_t k = 0; k < row.fields.size(); ++k) {
    const bool named = std::any_of(by_name_.begin(), by_name_.end(),
                                   [k](const auto& column) { return column.second == k; });
    if (!named && !row.fields[k].empty())
      throw base::InputError(
          fmt::format("read {} under no column; accepted: fields in the named columns, one each",
                      base::in_quotes(row.fields[k])));
  }
}

}  // namespace stakewright::job
