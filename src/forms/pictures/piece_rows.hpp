// The pieces of a roof gathered by name: hip, common, jack 1, jack 2, fascia, beam ...
#pragma once

#include <string>
#include <vector>

#include "stakewright/roof/roof.hpp"

namespace stakewright::forms {

struct PieceRow {
  roof::PartKind kind = roof::PartKind::hip;
  std::string number;  ///< of a jack, from the common outward; empty for others
  std::size_t count = 0;
  std::size_t own = 0;      ///< pieces that need their own cut
  double line_m = 0.0;      ///< as planned
  double overall_m = 0.0;   ///< of the first of them
  double farthest_m = 0.0;  ///< found less planned, of the one that is off most
  std::string farthest_at;
};

/// Kinds in working order; blocking is left out, it is cut to fit on the spot.
std::vector<PieceRow> piece_rows(const roof::Carry& carry);

/// The number at the end of "B-C left 2", as text.
std::string number_of(const std::string& at);

}  // namespace stakewright::forms
