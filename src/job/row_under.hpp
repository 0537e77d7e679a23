// Rows written elsewhere as rows of a file.
#pragma once

#include <vector>

#include "csv_rows.hpp"
#include "stakewright/job/written_rows.hpp"

namespace stakewright::job {

/// A header that names every column of any row.
Row header_of(const std::vector<WrittenRow>& written);

/// The fields in the order of the header; one that is not there has the place of the reading.
Row row_under(const Row& header, const WrittenRow& written);

}  // namespace stakewright::job
