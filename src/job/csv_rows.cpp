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

}  // namespace stakewright::job
