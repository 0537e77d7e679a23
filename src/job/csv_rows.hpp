// A CSV text as rows of fields that remember their lines.  Keeps the CSV library in one source.
#pragma once

#include <string>
#include <string_view>
#include <vector>

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

}  // namespace stakewright::job
