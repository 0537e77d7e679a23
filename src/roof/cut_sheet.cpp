#include "stakewright/roof/cut_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "sawing.hpp"
#include "stakewright/base/error.hpp"

namespace stakewright::roof {
namespace {

/// Which list a kind of part goes into.
constexpr std::array<std::pair<PartKind, const char*>, 8> kLists = {
    {{PartKind::hip, "hips"},
     {PartKind::common, "rafters"},
     {PartKind::jack, "rafters"},
     {PartKind::blocking, "blocking"},
     {PartKind::fascia, "fascia"},
     {PartKind::beam, "beams"},
     {PartKind::post, "posts"},
     {PartKind::hub, "hub"}}};

const char* list_of(PartKind kind) {
  const auto found = std::find_if(kLists.begin(), kLists.end(),
                                  [kind](const auto& entry) { return entry.first == kind; });
  return found->second;
}

CutList& list_named(std::vector<CutList>& lists, const std::string& what) {
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

std::vector<CutList> cut_sheet(const Carry& carry, const Stock& stock) {
  require_stock(stock);
  const double longest = *std::max_element(stock.lengths_m.begin(), stock.lengths_m.end());
  std::vector<CutList> lists;
  for (const auto& part : carry.parts) {
    if (part.stick_m <= 0.0) continue;  // as found, no room is left for it
    add(list_named(lists, list_of(part.kind)).pieces, part);
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
