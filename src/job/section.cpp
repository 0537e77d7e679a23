#include "section.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "stakewright/base/text.hpp"

namespace stakewright::job {
namespace {

std::string shown(std::string_view key) {
  return base::is_printable(key) && key.size() <= base::kLongestQuote ? std::string(key)
                                                                      : base::in_quotes(key);
}

}  // namespace

std::string_view nearest_key(std::string_view key, const Keys& known) {
  const auto start = key.substr(0, base::kLongestQuote);
  return *std::min_element(known.begin(), known.end(), [start](auto a, auto b) {
    return base::edits_between(start, a) < base::edits_between(start, b);
  });
}

Section::Section(const Table& table, std::string file, std::string path, int line,
                 const Keys& known)
    : Section(table, std::move(file), std::move(path), line) {
  refuse_unknown(known);
}

Section::Section(const Table& table, std::string file, std::string path, int line)
    : table_(&table), file_(std::move(file)), path_(std::move(path)), line_(line) {}

const Entry* Section::find(std::string_view key) const {
  const auto found = std::find_if(entries().begin(), entries().end(),
                                  [key](const Entry& entry) { return entry.key == key; });
  return found == entries().end() ? nullptr : &*found;
}

const Entry& Section::demand(std::string_view key, std::string_view accepted) const {
  if (const Entry* entry = find(key)) return *entry;
  throw base::InputError(
      fmt::format("{}: {} is missing; accepted: {}", place(), path_of(key), accepted));
}

std::string Section::path_of(std::string_view key) const {
  return path_.empty() ? shown(key) : fmt::format("{}.{}", path_, shown(key));
}

std::string Section::place(const Entry& entry) const {
  return fmt::format("{}, line {}, {}", file_, entry.line, path_of(entry.key));
}

std::string Section::place() const {
  return path_.empty() ? file_ : fmt::format("{}, line {}, {}", file_, line_, path_);
}

void Section::refuse(const Entry& entry, const std::string& problem) const {
  throw base::InputError(fmt::format("{}: {}", place(entry), problem));
}

void Section::refuse_unknown(const Keys& known) const {
  for (const Entry& entry : entries()) {
    if (std::find(known.begin(), known.end(), entry.key) != known.end()) continue;
    refuse(entry, fmt::format("unknown key; the nearest known key is {}; accepted: {}",
                              nearest_key(entry.key, known), fmt::join(known, ", ")));
  }
}

const Table& Section::as_table(const Entry& entry) const {
  if (const auto* table = std::get_if<Table>(&entry.value.held)) return *table;
  refuse(entry, fmt::format("read {}; accepted: a table, [{}]", words_of(entry.value),
                            path_of(entry.key)));
}

Section Section::table(const Entry& entry, const Keys& known) const {
  return {as_table(entry), file_, path_of(entry.key), entry.line, known};
}

Section Section::table_of_names(const Entry& entry) const {
  return {as_table(entry), file_, path_of(entry.key), entry.line};
}

std::vector<Section> Section::tables(std::string_view key, const Keys& known) const {
  const Entry* entry = find(key);
  if (entry == nullptr) return {};
  const auto refuse_value = [&](const Value& value) {
    refuse(*entry, fmt::format("read {}; accepted: tables, each headed [[{}]]", words_of(value),
                               path_of(key)));
  };
  const auto* list = std::get_if<List>(&entry->value.held);
  if (list == nullptr) refuse_value(entry->value);
  std::vector<Section> result;
  for (const Value& value : *list) {
    const auto* table = std::get_if<Table>(&value.held);
    if (table == nullptr) refuse_value(value);
    result.emplace_back(*table, file_, fmt::format("{}[{}]", path_of(key), result.size() + 1),
                        value.line, known);
  }
  return result;
}

}  // namespace stakewright::job
