#include "table.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/job/texts.hpp"

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

int line_of(const toml::source_region& region) { return static_cast<int>(region.begin.line); }

void demand_few_levels(const toml::node& node, const std::string& name, int levels = 0) {
  if (levels > kMostLevels)
    throw base::InputError(fmt::format("{}, line {}: read tables or lists more than {} deep", name,
                                       line_of(node.source()), kMostLevels));
  if (const toml::array* list = node.as_array())
    for (const toml::node& item : *list) demand_few_levels(item, name, levels + 1);
  if (const toml::table* table = node.as_table())
    for (const auto& [key, value] : *table) demand_few_levels(value, name, levels + 1);
}

using Entry = std::pair<const toml::key*, const toml::node*>;

/// The library sorts by key; a job's lines keep the order they were written in.
std::vector<Entry> as_written(const toml::table& table) {
  std::vector<Entry> entries;
  for (const auto& [key, value] : table) entries.emplace_back(&key, &value);
  std::stable_sort(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) {
    return a.first->source().begin < b.first->source().begin;
  });
  return entries;
}

std::string decimal_text(double value) {
  std::string text = fmt::format("{}", value);
  if (text.find_first_not_of("-0123456789") == std::string::npos) text += ".0";
  return text;
}

double within(const toml::node& value, double read, const Range& range) {
  if (!range.has(read)) refuse(value, range.words);
  return read;
}

/// Keys too long for a message are cut.
std::string shown_key(std::string_view key) {
  return key.size() <= base::kLongestQuote ? base::shown(key) : base::in_quotes(key);
}

}  // namespace

toml::table toml_from_text(std::string_view text, const std::string& name) {
  if (full_stops(text) > kMostFullStops)
    throw base::InputError(
        fmt::format("{}: read more than {} full stops outside numbers; "
                    "accepted: a file with fewer",
                    name, kMostFullStops));
  try {
    toml::table table = toml::parse(text);
    demand_few_levels(table, name);
    return table;
  } catch (const toml::parse_error& error) {
    throw base::InputError(fmt::format("{}, line {}: {}; accepted: TOML, as in key = \"value\"",
                                       name, line_of(error.source()),
                                       base::shown(error.description())));
  }
}

std::string words_of(const toml::node& value) {
  if (const auto* text = value.as_string()) return base::in_quotes(text->get());
  if (const auto* whole = value.as_integer()) return fmt::format("\"{}\"", whole->get());
  if (const auto* decimal = value.as_floating_point())
    return fmt::format("\"{}\"", decimal_text(decimal->get()));
  if (const auto* truth = value.as_boolean()) return fmt::format("\"{}\"", truth->get());
  if (value.is_array()) return "a list";
  return value.is_table() ? "a table" : "a date or time";
}

void refuse(const toml::node& value, const std::string& accepted) {
  throw base::InputError(fmt::format("read {}; accepted: {}", words_of(value), accepted));
}

void refuse_word(const toml::node& value, const std::vector<std::string_view>& words) {
  std::vector<std::string> quoted;
  for (const std::string_view word : words) quoted.push_back(base::in_quotes(word));
  refuse(value, fmt::format("{}", fmt::join(quoted, ", ")));
}

std::string text_or_number(const toml::node& value, const char* accepted) {
  if (const auto* text = value.as_string()) return text->get();
  if (const auto* whole = value.as_integer()) return fmt::format("{}", whole->get());
  if (const auto* decimal = value.as_floating_point()) return decimal_text(decimal->get());
  refuse(value, accepted);
}

std::string name_from(const toml::node& value) {
  const auto* text = value.as_string();
  if (text == nullptr) refuse(value, "a name in quotes");
  demand_name(text->get());
  return text->get();
}

double number_in(const toml::node& value, const Range& range) {
  if (const auto* whole = value.as_integer())
    return within(value, static_cast<double>(whole->get()), range);
  if (const auto* decimal = value.as_floating_point()) return within(value, decimal->get(), range);
  refuse(value, range.words);
}

double length_in(const toml::node& value, base::Units units, const Range& range) {
  return within(value, base::length_m_from_text(text_or_number(value, range.words), units), range);
}

double area_in(const toml::node& value, base::Units units, const Range& range) {
  return within(value, base::area_m2_from_text(text_or_number(value, range.words), units), range);
}

base::Point point_from(const toml::node& value, base::Units units) {
  constexpr const char* accepted = "two lengths, right and forward, as in [\"-12ft\", \"10ft\"]";
  const toml::array& list = list_from(value, accepted);
  if (list.size() != 2) refuse(value, accepted);
  const Range any{-base::kLongestLength_m, base::kLongestLength_m, true, true, accepted};
  return {length_in(list[0], units, any), length_in(list[1], units, any)};
}

const toml::array& list_from(const toml::node& value, const char* accepted) {
  if (const toml::array* list = value.as_array()) return *list;
  refuse(value, accepted);
}

Table::Table(const toml::table& table, std::string file) : table_(&table), file_(std::move(file)) {}

Table::Table(const toml::table& table, const Table& within, std::string path, int line)
    : table_(&table),
      file_(within.file_),
      path_(std::move(path)),
      line_(line),
      units_(within.units_) {}

Table::Asked& Table::ask(std::string_view key, Take take) {
  asked_.push_back({key,
                    [this, key, take = std::move(take)](const toml::node& value) {
                      base::read_at(place(key), [&] { take(value); });
                    },
                    ""});
  return asked_.back();
}

Table::Asked& Table::text(std::string_view key, std::string& into, std::size_t most) {
  return ask(key, into, [most](const toml::node& value) {
    const auto* text = value.as_string();
    if (text == nullptr || !base::is_printable(text->get()) ||
        base::character_count(text->get()) > most)
      refuse(value, fmt::format("text on one line, up to {} characters", most));
    return text->get();
  });
}

Table::Asked& Table::whole(std::string_view key, int& into, int least, int most) {
  return ask(key, into, [least, most](const toml::node& value) {
    const auto* whole = value.as_integer();
    if (whole == nullptr || whole->get() < least || whole->get() > most)
      refuse(value, fmt::format("a whole number from {} to {}", least, most));
    return static_cast<int>(whole->get());
  });
}

Table::Asked& Table::number(std::string_view key, double& into, Range range) {
  return ask(key, into, [range](const toml::node& value) { return number_in(value, range); });
}

Table::Asked& Table::point(std::string_view key, base::Point& into) {
  return ask(key, into, [this](const toml::node& value) { return point_from(value, units_); });
}

double Table::quantity_in(const toml::node& value, base::Quantity quantity, const Range& range) {
  const std::string text = text_or_number(value, range.words);
  return within(value, base::quantity_from_text(text, quantity), range);
}

Table::Asked& Table::table(std::string_view key, TakeTable take) {
  asked_.push_back(
      {key,
       [this, key, take = std::move(take)](const toml::node& value) {
         const toml::table* inner = value.as_table();
         if (inner == nullptr)
           refuse_key(
               key, fmt::format("read {}; accepted: a table, [{}]", words_of(value), path_of(key)));
         Table table(*inner, *this, path_of(key), line_of(table_->find(key)->first.source()));
         take(table);
       },
       ""});
  return asked_.back();
}

Table::Asked& Table::tables(std::string_view key, TakeTable take) {
  const auto take_all = [this, key, take = std::move(take)](const toml::node& value) {
    const auto demand = [&](const auto* wanted, const toml::node& read) {
      if (wanted == nullptr)
        refuse_key(key, fmt::format("read {}; accepted: tables, each headed [[{}]]", words_of(read),
                                    path_of(key)));
    };
    const toml::array* list = value.as_array();
    demand(list, value);
    for (const toml::node& item : *list) demand(item.as_table(), item);
    for (std::size_t k = 0; k < list->size(); ++k) {
      const toml::node& item = (*list)[k];
      Table table(*item.as_table(), *this, fmt::format("{}[{}]", path_of(key), k + 1),
                  line_of(item.source()));
      take(table);
    }
  };
  asked_.push_back({key, take_all, ""});
  return asked_.back();
}

void Table::read() {
  refuse_unknown();
  for (const Asked& asked : asked_) {
    if (const toml::node* value = table_->get(asked.key))
      asked.take(*value);
    else if (!asked.needed_for.empty())
      refuse_table(
          fmt::format("{} is missing; accepted: {}", path_of(asked.key), asked.needed_for));
  }
}

void Table::refuse_unknown() const {
  std::vector<std::string_view> known;
  for (const Asked& asked : asked_) known.push_back(asked.key);
  for (const std::string& key : keys())
    if (std::find(known.begin(), known.end(), key) == known.end())
      refuse_key(key, fmt::format("unknown key; the nearest known key is {}; accepted: {}",
                                  base::nearest(key, known), fmt::join(known, ", ")));
}

std::vector<std::string> Table::keys() const {
  std::vector<std::string> keys;
  for (const auto& [key, value] : as_written(*table_)) keys.emplace_back(key->str());
  return keys;
}

std::string Table::path_of(std::string_view key) const {
  return path_.empty() ? shown_key(key) : fmt::format("{}.{}", path_, shown_key(key));
}

std::string Table::place() const {
  return path_.empty() ? file_ : fmt::format("{}, line {}, {}", file_, line_, path_);
}

std::string Table::place(std::string_view key) const {
  return fmt::format("{}, line {}, {}", file_, line_of(table_->find(key)->first.source()),
                     path_of(key));
}

void Table::refuse_table(const std::string& problem) const {
  throw base::InputError(fmt::format("{}: {}", place(), problem));
}

void Table::refuse_key(std::string_view key, const std::string& problem) const {
  throw base::InputError(fmt::format("{}: {}", place(key), problem));
}

namespace {

TextValue text_value(const toml::node& value) {
  TextValue result{words_of(value), {}};
  if (const auto* text = value.as_string()) result.text = text->get();
  return result;
}

void add_texts(const toml::table& table, const std::string& prefix, std::vector<Texts>& into) {
  for (const auto& [key, value] : as_written(table)) {
    const std::string path = prefix + std::string(key->str());
    if (const toml::table* inner = value->as_table()) {
      add_texts(*inner, path + ".", into);
      continue;
    }
    Texts texts{path, line_of(key->source()), text_value(*value), value->is_array(), {}};
    if (const toml::array* list = value->as_array())
      for (const toml::node& item : *list) texts.list.push_back(text_value(item));
    into.push_back(std::move(texts));
  }
}

}  // namespace

std::vector<Texts> texts_from_toml(std::string_view text, const std::string& name) {
  std::vector<Texts> all;
  add_texts(toml_from_text(text, name), "", all);
  return all;
}

}  // namespace stakewright::job
