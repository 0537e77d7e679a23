// The pieces of a roof gathered by name: hip, common, jack 1, jack 2, fascia, beam ...
#pragma once

#include <cstddef>
#include <vector>

#include "stakewright/roof/roof.hpp"

namespace stakewright::forms {

struct PieceRow {
  roof::PartKind kind = roof::PartKind::hip;
  int number = 0;  ///< of a jack, from the common outward; 0 for others
  std::size_t count = 0;
  std::size_t own = 0;      ///< pieces that need their own cut
  double line_m = 0.0;      ///< as planned
  double overall_m = 0.0;   ///< of the first of them
  double farthest_m = 0.0;  ///< found less planned, of the one that is off most
};

/// Kinds in working order; blocking is left out, it is cut to fit on the spot.
std::vector<PieceRow> piece_rows(const roof::Carry& carry);

}  // namespace stakewright::forms
