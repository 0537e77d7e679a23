// What to cut and what to order: pieces with their counts, sticks to saw them from, sheathing.
//
// Units: meters.  docs/methods/roof.md.
#pragma once

#include <string>
#include <vector>

#include "stakewright/roof/roof.hpp"

namespace stakewright::roof {

/// What the yard sells.
struct Stock {
  std::vector<double> lengths_m = {2.4384, 3.048, 3.6576, 4.2672, 4.8768, 6.096};  ///< 8 to 20 ft
  double kerf_m = 0.003175;  ///< lost at each cut: 1/8 in
};

/// Pieces cut alike.
struct Piece {
  PartKind kind = PartKind::hip;
  double length_m = 0.0;        ///< of the shortest square-ended stick it comes out of
  std::vector<std::string> at;  ///< where they go: as many as there are pieces
};

/// One stick, or several sawn alike.
struct Stick {
  double stock_m = 0.0;
  std::vector<double> pieces_m;  ///< longest first
  double left_m = 0.0;
  int count = 1;
};

/// Everything that comes out of one kind of stock: hips, rafters (commons and jacks), blocking,
/// fascia, beams, posts, hub.
struct CutList {
  std::string what;
  std::vector<Piece> pieces;  ///< longest first
  std::vector<Stick> sticks;
  std::vector<Piece> too_long;  ///< longer than any stock: splice or order specially
  double used_m = 0.0;          ///< total of the pieces
  double bought_m = 0.0;        ///< total of the sticks
  /// No cheaper choice of sticks exists.  Not sought where there are too many ways, as with dozens
  /// of pieces all unlike: then the sticks are filled one by one as full as they get.
  bool least = true;
};

/// Pieces that differ by less than this are cut alike.
inline constexpr double kAlike_m = 0.0005;

/// Total length bought is least, then the number of sticks.
/// Throws InputError when no stock length is given or one is not finite and above 0.
std::vector<CutList> cut_sheet(const Carry& carry, const Stock& stock);

/// So many sticks of one length.
struct Order {
  double stock_m = 0.0;
  int count = 0;
};

/// What a list's sticks come to, longest first.
std::vector<Order> sticks_to_order(const CutList& list);

/// Total of all faces, of the pieces to be cut.
double sheathing_area_m2(const Carry& carry);

}  // namespace stakewright::roof
