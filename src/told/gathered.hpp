// Rows of a table of roof parts that are told alike but for their place, told once.
#pragma once

#include <vector>

#include "stakewright/roof/names.hpp"
#include "stakewright/told/report.hpp"
#include "stakewright/wording/voice.hpp"

namespace stakewright::told {

/// A row of a table of parts, its place apart from the rest of it.
struct PlacedRow {
  base::Value kind;  ///< "hip", "fascia miter": what rows can be "all" of
  roof::Place at;
  Row rest;
};

/// Whether the rows are those of every piece, or a selection.
enum class Rows { every, selected };

/// Rows told alike once, kinds and rows in the order of their first appearance: kind, places, rest.
/// Places: `all 6`; `each side: 1, 2 left and right` for places numbered alike on every side; the
/// few there are; or how many.  Of a selection there is no "all" and no "each side".
std::vector<Row> gathered(const std::vector<PlacedRow>& placed, const wording::Voice& voice,
                          Rows rows = Rows::every);

/// The same for every piece, with their number between places and rest.
std::vector<Row> gathered_and_counted(const std::vector<PlacedRow>& placed,
                                      const wording::Voice& voice);

}  // namespace stakewright::told
