// The rows of a readings file and its columns.  Keeps the CSV library in one source.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "stakewright/job/written_rows.hpp"

namespace stakewright::job {

struct Row {
  int line = 0;  ///< of the file, from 1
  std::vector<std::string> fields;
  /// Of each field, when it was not written on a line of a file: `field reading.A-C.1`.
  std::vector<std::string> places = {};
};

/// Rows of the text (RFC 4180; spaces around a field are dropped).  Lines that start with #,
/// blank lines and lines of nothing but commas are left out.  An inch mark inside a field that
/// is not quoted stands for itself.  No field may run over the end of a line, so that a quote
/// left open cannot swallow the readings under it.
///
/// Throws InputError, naming `name` and the line, for a quote left open, for a carriage
/// return within a line, and for more than `most_rows` rows under the header.
std::vector<Row> rows_from_text(std::string_view text, const std::string& name,
                                std::size_t most_rows);

/// A header that names every column of any row.
Row header_of(const std::vector<WrittenRow>& written);

/// The fields in the order of the header; one that is not there has the place of the reading.
Row row_under(const Row& header, const WrittenRow& written);

/// Where each column stands in a row.  Columns come in any order and in any capitals.
class Columns {
 public:
  /// Throws InputError for an unknown column, one that comes twice, and a missing one of
  /// from, to, reading.
  Columns(const Row& header, const std::string& file);

  /// The field; empty when the file has no such column or the row ends before it.
  [[nodiscard]] const std::string& field(const Row& row, std::string_view column) const;

  /// Where the field was written: `line 7, column reading`, or the place it has of its own.
  [[nodiscard]] std::string place(const Row& row, std::string_view column) const;

  /// Throws InputError for text under no column.
  void demand_no_more(const Row& row) const;

 private:
  std::map<std::string, std::size_t, std::less<>> by_name_;
};

}  // namespace stakewright::job
