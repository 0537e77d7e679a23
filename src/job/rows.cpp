#include "rows.hpp"

#include <csv.h>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <new>
#include <set>

#include "accepted.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::job {
namespace {

const std::vector<std::string_view> kColumns = {
    "kind", "from",  "to",          "reading", "instrument", "round", "note",
    "at",   "sight", "temperature", "pull",    "burned",     "slope", "supports"};

/// The library's parser, fed one line at a time.
class Parser {
 public:
  Parser() {
    if (csv_init(&parser_, 0) != 0) throw std::bad_alloc();
  }
  Parser(const Parser&) = delete;
  Parser& operator=(const Parser&) = delete;
  ~Parser() { csv_free(&parser_); }

  /// Fields of one line that is not blank.  False when its row has not ended with it: a quote is
  /// open, and the parser is spent.
  bool read(std::string_view line, std::vector<std::string>& fields) {
    fields_ = &fields;
    row_ended_ = false;
    feed(line);
    feed("\n");
    return row_ended_;
  }

 private:
  void feed(std::string_view bytes) {
    // Outside its strict mode the library stops for nothing but want of memory.
    if (csv_parse(&parser_, bytes.data(), bytes.size(), take_field, take_row, this) != bytes.size())
      throw std::bad_alloc();
  }
  static void take_field(void* bytes, std::size_t size, void* self) {
    static_cast<Parser*>(self)->fields_->emplace_back(static_cast<const char*>(bytes), size);
  }
  static void take_row(int, void* self) { static_cast<Parser*>(self)->row_ended_ = true; }

  csv_parser parser_{};
  std::vector<std::string>* fields_ = nullptr;
  bool row_ended_ = false;
};

[[noreturn]] void refuse(const std::string& name, int line, const std::string& problem) {
  throw base::InputError(fmt::format("{}, line {}: {}", name, line, problem));
}

bool has_content(const Row& row) {
  return std::any_of(row.fields.begin(), row.fields.end(),
                     [](const std::string& field) { return !field.empty(); });
}

std::string quoted(const std::string& text) {
  std::string field = "\"";
  for (const char c : text) {
    if (c == '"') field += '"';
    field += c;
  }
  return field + '"';
}

}  // namespace

std::vector<Row> rows_from_text(std::string_view text, const std::string& name,
                                std::size_t most_rows) {
  std::vector<Row> rows;
  Parser parser;
  for (int line = 1; !text.empty(); ++line) {
    const std::string_view read = text.substr(0, text.find('\n'));
    text.remove_prefix(std::min(read.size() + 1, text.size()));
    const bool blank = read.find_first_not_of(" \t") == std::string_view::npos;
    if (blank || read.starts_with('#')) continue;
    if (read.find('\r') != std::string_view::npos)
      refuse(name, line, "read a carriage return within a line; accepted: LF or CRLF at its end");
    Row row{line, {}};
    if (!parser.read(read, row.fields))
      refuse(name, line,
             "read a quote that is left open; accepted: quotes in pairs, an inch mark inside "
             "quotes written twice");
    if (!has_content(row)) continue;
    if (rows.size() > most_rows)
      refuse(name, line,
             fmt::format("read more than {} rows; accepted: at most that many", most_rows));
    rows.push_back(std::move(row));
  }
  return rows;
}

Row header_of(const std::vector<WrittenRow>& written) {
  std::set<std::string, std::less<>> names{"from", "to", "reading"};
  for (const WrittenRow& row : written)
    for (const auto& field : row) names.insert(field.first);
  return {0, {names.begin(), names.end()}};
}

Row row_under(const Row& header, const WrittenRow& written) {
  const auto reading = written.find("reading");
  const std::string place = reading == written.end() ? "" : reading->second.place;
  Row row;
  for (const std::string& name : header.fields) {
    const auto field = written.find(name);
    row.fields.push_back(field == written.end() ? "" : field->second.text);
    row.places.push_back(field == written.end() ? place : field->second.place);
  }
  return row;
}

std::string csv_from_rows(const std::vector<WrittenRow>& rows) {
  const Row header = header_of(rows);
  std::string csv = fmt::format("{}\n", fmt::join(header.fields, ","));
  for (const WrittenRow& written : rows) {
    Row row = row_under(header, written);
    for (std::string& field : row.fields)
      if (!field.empty()) field = quoted(field);
    csv += fmt::format("{}\n", fmt::join(row.fields, ","));
  }
  return csv;
}

Columns::Columns(const Row& header, const std::string& file) {
  for (std::size_t k = 0; k < header.fields.size(); ++k) {
    const std::string name = base::lower_case(header.fields[k]);
    if (name.empty()) continue;
    if (std::find(kColumns.begin(), kColumns.end(), name) == kColumns.end())
      refuse(file, header.line,
             fmt::format("unknown column {}; the nearest known column is {}; accepted: {}",
                         base::in_quotes(header.fields[k]), base::nearest(name, kColumns),
                         fmt::join(kColumns, ", ")));
    if (!by_name_.emplace(name, k).second)
      refuse(file, header.line, fmt::format("read column {} twice; accepted: once", name));
  }
  for (const char* needed : {"from", "to", "reading"})
    if (by_name_.count(needed) == 0)
      refuse(file, header.line,
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
