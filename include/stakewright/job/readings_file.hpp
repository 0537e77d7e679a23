// The readings file (CSV, RFC 4180).  Columns: docs/file-formats.md.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "stakewright/job/job.hpp"
#include "stakewright/readings/reading.hpp"

namespace stakewright::job {

/// More rows than this are refused: no shelter has so many readings.
inline constexpr std::size_t kMostReadings = 20000;

/// Reads the readings of a job.  Throws InputError with file, line and column.
/// Labels and instruments are checked against the job; the same pair may come twice.
std::vector<readings::Reading> read_readings(const std::string& path, const Job& job);

std::vector<readings::Reading> readings_from_text(std::string_view text, const std::string& name,
                                                  const Job& job);

}  // namespace stakewright::job
