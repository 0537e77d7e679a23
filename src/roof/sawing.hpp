// Sticks to saw a handful of lengths from, at the least total length bought.
#pragma once

#include <cstddef>
#include <vector>

namespace stakewright::roof {

/// So many pieces of one length.
struct Demand {
  double length_m = 0.0;
  int count = 0;
};

/// A stick of stock and how many pieces of each demand come out of it.
struct Sawn {
  double stock_m = 0.0;
  std::vector<int> pieces;
};

struct Sawing {
  std::vector<Sawn> sticks;
  bool least = true;  ///< no other choice buys less, nor as much in fewer sticks
};

/// Every demand, longest first, must fit into the longest stock.  A piece takes its length
/// and a kerf, the last one of a stick no kerf.
Sawing sawing(const std::vector<Demand>& demands, const std::vector<double>& stock_m,
              double kerf_m);

}  // namespace stakewright::roof
