#include "sawing.hpp"

#include <algorithm>
#include <cassert>
#include <limits>
#include <map>
#include <utility>

namespace stakewright::roof {
namespace {

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

}  // namespace

Sawing sawing(const std::vector<Demand>& demands, const std::vector<double>& stock_m,
              double kerf_m) {
  Counts left;
  for (const auto& demand : demands) left.push_back(demand.count);
  Search search(demands, stock_m, kerf_m);
  if (search.solve(left)) return {search.sticks(left), true};
  return {filled_one_by_one(demands, stock_m, kerf_m, left), false};
}

}  // namespace stakewright::roof
