#include "csv_rows.hpp"

#include <csv.h>
#include <fmt/format.h>

#include <algorithm>
#include <new>

#include "stakewright/base/error.hpp"

namespace stakewright::job {
namespace {

/// The library's parser, fed one line at a time.
class Parser {
 public:
  Parser() {
    if (csv_init(&parser_, CSV_STRICT_FINI) != 0) throw std::bad_alloc();
  }
  Parser(const Parser&) = delete;
  Parser& operator=(const Parser&) = delete;
  ~Parser() { csv_free(&parser_); }

  /// Fields of one line.  False when a quote is open at its end; the parser is then spent.
  bool read(std::string_view line, std::vector<std::string>& fields) {
    if (csv_parse(&parser_, line.data(), line.size(), take_field, nullptr, &fields) != line.size())
      throw std::bad_alloc();  // outside strict mode the library stops for nothing else
    return csv_fini(&parser_, take_field, nullptr, &fields) == 0;
  }

 private:
  static void take_field(void* bytes, std::size_t size, void* fields) {
    static_cast<std::vector<std::string>*>(fields)->emplace_back(static_cast<const char*>(bytes),
                                                                 size);
  }

  csv_parser parser_{};
};

[[noreturn]] void refuse(const std::string& name, int line, const std::string& problem) {
  throw base::InputError(fmt::format("{}, line {}: {}", name, line, problem));
}

bool has_content(const Row& row) {
  return std::any_of(row.fields.begin(), row.fields.end(),
                     [](const std::string& field) { return !field.empty(); });
}

}  // namespace

std::vector<Row> rows_from_text(std::string_view text, const std::string& name,
                                std::size_t most_rows) {
  std::vector<Row> rows;
  Parser parser;
  for (int line = 1; !text.empty(); ++line) {
    const std::string_view read = text.substr(0, text.find('\n'));
    text.remove_prefix(std::min(read.size() + 1, text.size()));
    if (read.starts_with('#')) continue;
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

}  // namespace stakewright::job
