// Which pieces of a kind come off the pattern, and the lengths of those that do not.
#pragma once

#include "key_column.hpp"
#include "part_pictures.hpp"

namespace stakewright::forms {

/// Rows down to the end of the column; what finds no room is counted and sent to the report.
void add_pieces_like(KeyColumn& key, const PartInput& input, roof::PartKind kind);

}  // namespace stakewright::forms
