#include "stakewright/roof/cut_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

#include "stakewright/base/error.hpp"

namespace stakewright::roof {
namespace {

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

/// Past so many fillings tried, full or not, the search is given up: some tenths of a second.
constexpr std::size_t kMostTried = 200000;

/// A stick is never refused for less than the rounding of a sum of lengths.
constexpr double kRounding_m = 1e-9;

using Counts = std::vector<int>;

struct Cost {
  double bought_m = 0.0;
  int sticks = 0;

  [[nodiscard]] bool below(const Cost& other) const {
    if (bought_m < other.bought_m - kRounding_m) return true;
    return bought_m < other.bought_m + kRounding_m && sticks < other.sticks;
  }
};

/// Fillings of one stick out of what is left that take the longest piece left and leave no room
/// for any other: every best sawing can be put so, for moving a piece forward costs nothing.
class Fillings {
 public:
  Fillings(const std::vector<Demand>& demands, double kerf_m)
      : demands_(demands), kerf_m_(kerf_m) {}

  /// False when there are too many to list.
  bool list(const Counts& left, double stock_m, std::vector<Counts>& fillings) {
    const auto longest = static_cast<std::size_t>(
        std::find_if(left.begin(), left.end(), [](int n) { return n > 0; }) - left.begin());
    assert(longest < left.size());
    const double room = stock_m + kerf_m_ + kRounding_m - taken(longest);
    if (room < 0.0) return true;
    Counts filling(left.size(), 0);
    filling[longest] = 1;
    return extend(left, longest, room, filling, fillings);
  }

 private:
  [[nodiscard]] double taken(std::size_t demand) const {
    return demands_[demand].length_m + kerf_m_;
  }

  /// Adds pieces of `demand` and those after it in every way.
  bool extend(const Counts& left, std::size_t demand, double room, Counts& filling,
              std::vector<Counts>& fillings) {
    if (demand == left.size()) {
      if (full(left, filling, room)) fillings.push_back(filling);
      return ++tried_ <= kMostTried;
    }
    const int already = filling[demand];
    const int most = std::min(left[demand] - already, static_cast<int>(room / taken(demand)));
    // The shortest pieces fill what room is left; fewer of them would not fill the stick.
    const int least = demand + 1 == left.size() ? most : 0;
    for (int more = most; more >= least; --more) {
      filling[demand] = already + more;
      if (!extend(left, demand + 1, room - more * taken(demand), filling, fillings)) return false;
    }
    filling[demand] = already;
    return true;
  }

  [[nodiscard]] bool full(const Counts& left, const Counts& filling, double room) const {
    for (std::size_t k = 0; k < left.size(); ++k)
      if (filling[k] < left[k] && taken(k) <= room) return false;
    return true;
  }

  const std::vector<Demand>& demands_;
  double kerf_m_;
  std::size_t tried_ = 0;  ///< over all lists of this search
};

Counts without(const Counts& left, const Counts& filling) {
  Counts result = left;
  for (std::size_t k = 0; k < left.size(); ++k) result[k] -= filling[k];
  return result;
}

bool nothing_in(const Counts& left) {
  return std::all_of(left.begin(), left.end(), [](int n) { return n == 0; });
}

/// Least cost of every state of what is left, each worked out once.
class Search {
 public:
  Search(const std::vector<Demand>& demands, const std::vector<double>& stock_m, double kerf_m)
      : fillings_(demands, kerf_m), stock_m_(stock_m) {}

  /// False when there are too many ways.
  bool solve(const Counts& left) {
    if (nothing_in(left) || best_.count(left) != 0) return true;
    Step best{{std::numeric_limits<double>::infinity(), 0}, {}};
    for (const double stock : stock_m_) {
      std::vector<Counts> fillings;
      if (!fillings_.list(left, stock, fillings)) return false;
      for (auto& filling : fillings) {
        const Counts rest = without(left, filling);
        if (!solve(rest)) return false;
        Cost cost = cost_of(rest);
        cost.bought_m += stock;
        ++cost.sticks;
        if (cost.below(best.cost)) best = {cost, {stock, std::move(filling)}};
      }
    }
    best_[left] = std::move(best);
    return true;
  }

  [[nodiscard]] std::vector<Sawn> sticks(Counts left) const {
    std::vector<Sawn> result;
    while (!nothing_in(left)) {
      result.push_back(best_.at(left).stick);
      left = without(left, result.back().pieces);
    }
    return result;
  }

 private:
  struct Step {
    Cost cost;
    Sawn stick;
  };

  [[nodiscard]] Cost cost_of(const Counts& left) const {
    return nothing_in(left) ? Cost{} : best_.at(left).cost;
  }

  Fillings fillings_;
  const std::vector<double>& stock_m_;
  std::map<Counts, Step> best_;
};

/// One stick filled with the longest piece left that still fits, again and again.
Sawn filled(const std::vector<Demand>& demands, const Counts& left, double stock_m, double kerf_m) {
  Sawn stick{stock_m, Counts(left.size(), 0)};
  double room = stock_m + kerf_m + kRounding_m;
  for (std::size_t k = 0; k < left.size(); ++k)
    while (stick.pieces[k] < left[k] && demands[k].length_m + kerf_m <= room) {
      ++stick.pieces[k];
      room -= demands[k].length_m + kerf_m;
    }
  return stick;
}

double share_used(const std::vector<Demand>& demands, const Sawn& stick) {
  double used = 0.0;
  for (std::size_t k = 0; k < demands.size(); ++k) used += stick.pieces[k] * demands[k].length_m;
  return used / stick.stock_m;
}

/// Stick after stick: of the stock that takes the longest piece left, the one used best.
std::vector<Sawn> filled_one_by_one(const std::vector<Demand>& demands,
                                    const std::vector<double>& stock_m, double kerf_m,
                                    Counts left) {
  std::vector<Sawn> sticks;
  while (!nothing_in(left)) {
    const auto longest = static_cast<std::size_t>(
        std::find_if(left.begin(), left.end(), [](int n) { return n > 0; }) - left.begin());
    Sawn best;
    double best_share = 0.0;
    for (const double stock : stock_m) {
      Sawn stick = filled(demands, left, stock, kerf_m);
      if (stick.pieces[longest] == 0) continue;
      const double share = share_used(demands, stick);
      if (share > best_share) best = std::move(stick);
      best_share = std::max(share, best_share);
    }
    left = without(left, best.pieces);
    sticks.push_back(std::move(best));
  }
  return sticks;
}

/// Every demand, longest first, must fit into the longest stock.  A piece takes its length
/// and a kerf, the last one of a stick no kerf.
Sawing sawing(const std::vector<Demand>& demands, const std::vector<double>& stock_m,
              double kerf_m) {
  Counts left;
  for (const auto& demand : demands) left.push_back(demand.count);
  Search search(demands, stock_m, kerf_m);
  if (search.solve(left)) return {search.sticks(left), true};
  return {filled_one_by_one(demands, stock_m, kerf_m, left), false};
}

/// What each kind of part is sawn from, in the order of the kinds.
constexpr std::array<Lumber, kPartKinds.size()> kLumber = {
    Lumber::hips,   Lumber::rafters, Lumber::rafters, Lumber::blocking,
    Lumber::fascia, Lumber::beams,   Lumber::posts,   Lumber::hub};

CutList& list_of(std::vector<CutList>& lists, PartKind kind) {
  const Lumber what = kLumber[static_cast<std::size_t>(kind)];
  for (auto& list : lists)
    if (list.what == what) return list;
  lists.emplace_back();
  lists.back().what = what;
  return lists.back();
}

/// Adds the part to the pieces that it is alike, or as a new one.
void add(std::vector<Piece>& pieces, const Part& part) {
  for (auto& piece : pieces)
    if (piece.kind == part.kind && std::abs(piece.length_m - part.stick_m) < kAlike_m) {
      piece.length_m = std::max(piece.length_m, part.stick_m);
      piece.at.push_back(part.at);
      return;
    }
  pieces.push_back({part.kind, part.stick_m, {part.at}});
}

void take_out_too_long(CutList& list, double longest_m) {
  const auto fits = [longest_m](const Piece& piece) { return piece.length_m <= longest_m; };
  const auto first_long = std::stable_partition(list.pieces.begin(), list.pieces.end(), fits);
  list.too_long.assign(first_long, list.pieces.end());
  list.pieces.erase(first_long, list.pieces.end());
}

Stick stick_of(const Sawn& sawn, const std::vector<Piece>& pieces, double kerf_m) {
  Stick stick;
  stick.stock_m = sawn.stock_m;
  double used = 0.0;
  for (std::size_t k = 0; k < pieces.size(); ++k)
    for (int i = 0; i < sawn.pieces[k]; ++i) {
      stick.pieces_m.push_back(pieces[k].length_m);
      used += pieces[k].length_m;
    }
  const auto cuts = static_cast<double>(stick.pieces_m.size());
  stick.left_m = std::max(0.0, sawn.stock_m - used - cuts * kerf_m);
  return stick;
}

void saw(CutList& list, const Stock& stock) {
  std::vector<Demand> demands;
  for (const auto& piece : list.pieces) {
    demands.push_back({piece.length_m, static_cast<int>(piece.at.size())});
    list.used_m += piece.length_m * static_cast<double>(piece.at.size());
  }
  const Sawing sawn = sawing(demands, stock.lengths_m, stock.kerf_m);
  list.least = sawn.least;
  for (const auto& one : sawn.sticks) {
    list.bought_m += one.stock_m;
    Stick stick = stick_of(one, list.pieces, stock.kerf_m);
    const auto alike =
        std::find_if(list.sticks.begin(), list.sticks.end(), [&](const Stick& other) {
          return other.stock_m == stick.stock_m && other.pieces_m == stick.pieces_m;
        });
    if (alike == list.sticks.end())
      list.sticks.push_back(std::move(stick));
    else
      ++alike->count;
  }
}

void require_stock(const Stock& stock) {
  if (stock.lengths_m.empty())
    throw base::InputError("no stock length; accepted is a list of lengths above 0");
  for (const double length : stock.lengths_m)
    if (!(std::isfinite(length) && length > 0.0))
      throw base::InputError(
          fmt::format("stock length {:g} m; accepted is a finite length above 0", length));
  if (!(std::isfinite(stock.kerf_m) && stock.kerf_m >= 0.0))
    throw base::InputError(
        fmt::format("kerf {:g} m; accepted is a finite length, 0 or more", stock.kerf_m));
}

}  // namespace

std::string_view name_of(Lumber lumber) {
  constexpr std::array<std::string_view, 7> kNames = {"hips",  "rafters", "blocking", "fascia",
                                                      "beams", "posts",   "hub"};
  return kNames[static_cast<std::size_t>(lumber)];
}

std::vector<CutList> cut_sheet(const Carry& carry, const Stock& stock) {
  require_stock(stock);
  const double longest = *std::max_element(stock.lengths_m.begin(), stock.lengths_m.end());
  std::vector<CutList> lists;
  for (const auto& part : carry.parts) {
    if (part.stick_m <= 0.0) continue;  // as found, no room is left for it
    add(list_of(lists, part.kind).pieces, part);
  }
  for (auto& list : lists) {
    std::stable_sort(list.pieces.begin(), list.pieces.end(),
                     [](const Piece& a, const Piece& b) { return a.length_m > b.length_m; });
    take_out_too_long(list, longest);
    saw(list, stock);
  }
  return lists;
}

std::vector<Order> sticks_to_order(const CutList& list) {
  std::vector<Order> orders;
  for (const auto& stick : list.sticks) {
    const auto same = std::find_if(orders.begin(), orders.end(), [&stick](const Order& order) {
      return order.stock_m == stick.stock_m;
    });
    if (same == orders.end())
      orders.push_back({stick.stock_m, stick.count});
    else
      same->count += stick.count;
  }
  std::sort(orders.begin(), orders.end(),
            [](const Order& a, const Order& b) { return a.stock_m > b.stock_m; });
  return orders;
}

double sheathing_area_m2(const Carry& carry) {
  double sum = 0.0;
  for (const auto& sheet : carry.sheets) sum += sheet.area_m2;
  return sum;
}

}  // namespace stakewright::roof
