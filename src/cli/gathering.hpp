// Rows of a table of roof parts that are equal but for their place, told once.
#pragma once

#include <string>
#include <vector>

#include "text.hpp"

namespace stakewright::cli {

/// A row of a table of parts, its place apart from the rest of it.
struct PlacedRow {
  std::string kind;  ///< "hip", "fascia mitre": what rows can be "all" of
  std::string at;    ///< "C", "B-C", "B-C left 2"
  Row rest;
};

/// Equal rows once, kinds and rows in the order of their first appearance: kind,
/// places, rest.  Places: `all 6`; `each side: 1, 2 left and right` for places
/// numbered alike on every side; the few there are; or how many.
std::vector<Row> gathered(const std::vector<PlacedRow>& placed);

}  // namespace stakewright::cli
