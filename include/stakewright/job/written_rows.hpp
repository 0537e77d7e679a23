// Readings written elsewhere than in a CSV file, such as in the blanks of a form: the same
// columns, the same rules, and messages that name the place each was written at.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "stakewright/job/job.hpp"
#include "stakewright/readings/reading.hpp"

namespace stakewright::job {

struct Written {
  std::string text;
  std::string place;  ///< for messages: `field reading.A-C.1`
};

/// One reading by columns of the readings file.
using WrittenRow = std::map<std::string, Written, std::less<>>;

/// The readings, one a row.  Throws InputError with `name`, the field's place, what was read and
/// what is accepted; what is wrong with a row as a whole has the place of its `reading`.
std::vector<readings::Reading> readings_from_rows(const std::vector<WrittenRow>& rows,
                                                  const std::string& name, const Job& job);

/// The rows as a readings file, every field in quotes; a header alone when there are none.
std::string csv_from_rows(const std::vector<WrittenRow>& rows);

}  // namespace stakewright::job
