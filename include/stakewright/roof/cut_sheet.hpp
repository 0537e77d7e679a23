// What to cut and what to order: pieces with their counts, sticks to saw them from, sheathing.
//
// Units: meters.  docs/methods/roof.md.
#pragma once

#include <string_view>
#include <vector>

#include "stakewright/roof/roof.hpp"
#include "stakewright/roof/stock.hpp"

namespace stakewright::roof {

/// Pieces cut alike.
struct Piece {
  PartKind kind = PartKind::hip;
  double length_m = 0.0;  ///< of the shortest square-ended stick it comes out of
  std::vector<Place> at;  ///< where they go: as many as there are pieces
};

/// One stick, or several sawn alike.
struct Stick {
  double stock_m = 0.0;
  std::vector<double> pieces_m;  ///< longest first
  double left_m = 0.0;
  int count = 1;
};

/// Kinds of stock: rafters are commons and jacks, each other kind is of one kind of part.
enum class Lumber { hips, rafters, blocking, fascia, beams, posts, hub };

/// "hips", "rafters", ...
std::string_view name_of(Lumber lumber);

/// Everything that comes out of one kind of stock.
struct CutList {
  Lumber what = Lumber::hips;
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

/// Total length bought is least, then the number of sticks: the one-dimensional cutting stock
/// problem, solved exactly but where `CutList::least` says otherwise.
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
