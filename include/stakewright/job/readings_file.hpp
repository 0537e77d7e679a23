// The readings file (CSV, RFC 4180).  Columns: docs/file-formats.md.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "stakewright/base/fact.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/readings/reading.hpp"

namespace stakewright::job {

/// More rows than this are refused: no shelter has so many readings.
inline constexpr std::size_t kMostReadings = 20000;

/// The rows of a readings file.
struct ReadingRows {
  std::vector<readings::Reading> readings;
  /// Set out and not read yet: the field of the reading is empty, and its value is 0.
  std::vector<readings::Reading> not_read;
};

/// Spans of a tape from its supports, as column `supports` has them: `0`, `4`, `all`.
/// Throws InputError for anything else.
int spans_from_text(const std::string& text);

/// Reads the readings of a job.  Throws InputError with file, line and column.
/// Labels and instruments are checked against the job; the same pair may come twice.
ReadingRows read_reading_rows(const std::string& path, const Job& job);

ReadingRows reading_rows_from_text(std::string_view text, const std::string& name, const Job& job);

/// Those that were read.
std::vector<readings::Reading> read_readings(const std::string& path, const Job& job);

std::vector<readings::Reading> readings_from_text(std::string_view text, const std::string& name,
                                                  const Job& job);

/// A sentence that counts and names the rows not read yet; none when all were read.
std::vector<base::Fact> not_read_remarks(const ReadingRows& rows);

}  // namespace stakewright::job
