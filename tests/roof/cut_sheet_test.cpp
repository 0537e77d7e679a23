// What to cut and what to order.

#include "stakewright/roof/cut_sheet.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <functional>
#include <numeric>
#include <set>

#include "roof/roofs.hpp"
#include "stakewright/base/error.hpp"

namespace stakewright::roof {
namespace {

constexpr double kRounding = 1e-9;

/// A carry of bare pieces, to try the sawing with.
Carry pieces_of(const std::vector<double>& lengths_m) {
  Carry carry;
  for (std::size_t i = 0; i < lengths_m.size(); ++i) {
    Part part;
    part.kind = PartKind::beam;
    part.at = Place::at_corner(i);
    part.stick_m = lengths_m[i];
    carry.parts.push_back(part);
  }
  return carry;
}

const CutList& list_of(const std::vector<CutList>& lists, Lumber what) {
  for (const auto& list : lists)
    if (list.what == what) return list;
  throw std::logic_error("no list of " + std::string(name_of(what)));
}

/// Every piece once, no stick overfull, sums right.
void expect_sound(const CutList& list, const Stock& stock) {
  std::vector<double> wanted;
  std::vector<double> got;
  double bought = 0.0;
  for (const auto& piece : list.pieces)
    wanted.insert(wanted.end(), piece.at.size(), piece.length_m);
  for (const auto& stick : list.sticks) {
    EXPECT_NE(std::count(stock.lengths_m.begin(), stock.lengths_m.end(), stick.stock_m), 0);
    double used = std::accumulate(stick.pieces_m.begin(), stick.pieces_m.end(), 0.0);
    used += stock.kerf_m * static_cast<double>(stick.pieces_m.size() - 1);
    EXPECT_LE(used, stick.stock_m + kRounding);
    EXPECT_NEAR(stick.left_m, std::max(0.0, stick.stock_m - used - stock.kerf_m), kRounding);
    for (int i = 0; i < stick.count; ++i)
      got.insert(got.end(), stick.pieces_m.begin(), stick.pieces_m.end());
    bought += stick.count * stick.stock_m;
  }
  std::sort(wanted.begin(), wanted.end());
  std::sort(got.begin(), got.end());
  EXPECT_EQ(wanted, got);
  EXPECT_NEAR(bought, list.bought_m, kRounding);
  EXPECT_NEAR(std::accumulate(wanted.begin(), wanted.end(), 0.0), list.used_m, kRounding);
}

/// Least total by putting every piece into every stick there could be, one after another.
double least_by_trying(const std::vector<double>& lengths, const Stock& stock) {
  double best = 1e9;
  std::vector<double> filled;  // length and kerf used of each open stick
  const auto cost = [&stock](double used) {
    double least = 1e9;
    for (const double length : stock.lengths_m)
      if (used <= length + stock.kerf_m + kRounding) least = std::min(least, length);
    return least;
  };
  const std::function<void(std::size_t)> put = [&](std::size_t piece) {
    if (piece == lengths.size()) {
      double total = 0.0;
      for (const double used : filled) total += cost(used);
      best = std::min(best, total);
      return;
    }
    const double take = lengths[piece] + stock.kerf_m;
    for (std::size_t i = 0; i < filled.size(); ++i) {
      if (cost(filled[i] + take) > 1e8) continue;
      filled[i] += take;
      put(piece + 1);
      filled[i] -= take;
    }
    filled.push_back(take);
    put(piece + 1);
    filled.pop_back();
  };
  put(0);
  return best;
}

TEST(Sawing, BuysTheLeastThatTryingEverythingFinds) {
  std::mt19937 random(701);
  std::uniform_real_distribution<double> length(0.3, 4.0);
  Stock stock;
  stock.lengths_m = {2.4384, 3.6576, 4.8768};
  for (int round = 0; round < 60; ++round) {
    std::vector<double> lengths(2 + static_cast<std::size_t>(round % 6));
    for (double& one : lengths) one = length(random);
    if (round % 3 == 0) lengths[1] = lengths[0];
    const auto lists = cut_sheet(pieces_of(lengths), stock);
    SCOPED_TRACE(testing::Message() << "seed 701, round " << round);
    ASSERT_EQ(lists.size(), 1U);
    EXPECT_TRUE(lists[0].least);
    EXPECT_NEAR(lists[0].bought_m, least_by_trying(lengths, stock), kRounding);
    expect_sound(lists[0], stock);
  }
}

TEST(Sawing, FindsTheFillingThatLongestFirstMisses) {
  // 4, 4, 3, 3, 3, 3 go into two sticks of 10 as 4 + 3 + 3; longest first fills 4 + 4 and
  // needs a third stick.
  Stock stock;
  stock.kerf_m = 0.0;
  stock.lengths_m = {10.0};
  const auto mixed = cut_sheet(pieces_of({4.0, 4.0, 3.0, 3.0, 3.0, 3.0}), stock);
  EXPECT_NEAR(mixed[0].bought_m, 20.0, kRounding);
  ASSERT_EQ(mixed[0].sticks.size(), 1U);
  EXPECT_EQ(mixed[0].sticks[0].count, 2);
}

TEST(Sawing, LosesAKerfBetweenPieces) {
  Stock stock;
  stock.lengths_m = {3.0, 4.0};
  stock.kerf_m = 0.003;
  EXPECT_NEAR(cut_sheet(pieces_of({1.4985, 1.4985}), stock)[0].bought_m, 3.0, kRounding);
  EXPECT_NEAR(cut_sheet(pieces_of({1.4990, 1.4990}), stock)[0].bought_m, 4.0, kRounding);
  EXPECT_NEAR(cut_sheet(pieces_of({3.0}), stock)[0].bought_m, 3.0, kRounding);
}

TEST(Sawing, OfManyUnlikePiecesIsSoundAndSaysThatItMayNotBeTheLeast) {
  std::mt19937 random(702);
  std::uniform_real_distribution<double> length(0.2, 3.0);
  std::vector<double> lengths(90);
  for (double& one : lengths) one = length(random);
  const Stock stock;
  const auto lists = cut_sheet(pieces_of(lengths), stock);
  EXPECT_FALSE(lists[0].least);
  expect_sound(lists[0], stock);
  EXPECT_LT(lists[0].bought_m, 1.1 * lists[0].used_m);
}

TEST(Sawing, GivesUpInTimeOnAHeapOfUnlikeOffcuts) {
  // Forty unlike pieces that all fit one stick: two to the fortieth ways to take some of them.
  std::vector<double> lengths;
  for (int k = 0; k < 40; ++k) lengths.push_back(0.05 + 0.002 * k);
  Stock stock;
  stock.lengths_m = {6.0};
  const auto lists = cut_sheet(pieces_of(lengths), stock);
  EXPECT_FALSE(lists[0].least);
  EXPECT_NEAR(lists[0].bought_m, 6.0, kRounding);
}

TEST(Sawing, NamesPiecesLongerThanAnyStock) {
  Stock stock;
  stock.lengths_m = {3.0};
  const auto lists = cut_sheet(pieces_of({3.2, 2.0, 3.2}), stock);
  ASSERT_EQ(lists[0].too_long.size(), 1U);
  EXPECT_THAT(lists[0].too_long[0].at,
              testing::ElementsAre(Place::at_corner(0), Place::at_corner(2)));
  EXPECT_NEAR(lists[0].bought_m, 3.0, kRounding);
}

TEST(Sawing, RefusesStockThatIsNone) {
  for (const auto& lengths :
       std::vector<std::vector<double>>{{}, {0.0}, {-1.0}, {3.0, std::nan("")}}) {
    Stock stock;
    stock.lengths_m = lengths;
    EXPECT_THAT([&] { cut_sheet(pieces_of({1.0}), stock); },
                testing::ThrowsMessage<base::InputError>(testing::HasSubstr("accepted")));
  }
}

TEST(CutSheet, HoldsEveryPartOfThePlannedRoofGroupedByKindAndLength) {
  Spec spec;
  spec.pitch = 8.0 / 12.0;
  spec.overhang_m = 18 * kInch_m;
  const Carry roof = planned(6, 8.0 * kFoot_m, spec);
  const auto lists = cut_sheet(roof, {});
  std::size_t pieces = 0;
  for (const auto& list : lists) {
    EXPECT_TRUE(list.least) << name_of(list.what);
    expect_sound(list, {});
    for (const auto& piece : list.pieces) pieces += piece.at.size();
  }
  EXPECT_EQ(pieces, roof.parts.size());
  const CutList& hips = list_of(lists, Lumber::hips);
  ASSERT_EQ(hips.pieces.size(), 1U);
  EXPECT_EQ(hips.pieces[0].at.size(), 6U);
  // Commons, and three lengths of jacks of which there are twelve each.
  const CutList& rafters = list_of(lists, Lumber::rafters);
  ASSERT_EQ(rafters.pieces.size(), 4U);
  EXPECT_EQ(rafters.pieces[3].at.size(), 12U);
}

TEST(CutSheet, CountsTheSticksOfEachLengthLongestFirst) {
  CutList list;
  list.sticks = {{3.0, {2.9}, 0.1, 2}, {4.0, {3.9}, 0.1, 1}, {3.0, {2.0}, 1.0, 3}};
  const auto orders = sticks_to_order(list);
  ASSERT_EQ(orders.size(), 2U);
  EXPECT_EQ(orders[0].stock_m, 4.0);
  EXPECT_EQ(orders[0].count, 1);
  EXPECT_EQ(orders[1].count, 5);
}

TEST(CutSheet, LeavesOutWhatTheCornersAsFoundHaveNoRoomFor) {
  const auto lists = cut_sheet(pieces_of({2.0, -0.1, 0.0}), {});
  ASSERT_EQ(lists[0].pieces.size(), 1U);
  EXPECT_NEAR(lists[0].used_m, 2.0, kRounding);
}

TEST(CutSheet, AllowsForTheLongPointOfAJacksCheekAndAPlumbTail) {
  Spec spec;
  spec.pitch = 0.75;
  const Carry square_tails = planned(4, 3.0, spec);
  const Part jack = part(square_tails, PartKind::jack, "A-B left 1");
  // At 45 degrees the long point is half the thickness further in plan, 1.25 times that up the
  // slope.
  EXPECT_NEAR(jack.stick_m - jack.overall_m, 0.5 * spec.rafter_m * 1.25, kRounding);
  spec.tail = Tail::plumb;
  const Part common = part(planned(4, 3.0, spec), PartKind::common, "A-B");
  // Both ends plumb: the bottom edge stands out below by the depth times the pitch.
  EXPECT_NEAR(common.stick_m - common.overall_m, spec.rafter_depth_m * 0.75, kRounding);
}

TEST(CutSheet, SumsTheSheathingOfAllFaces) {
  Spec spec;
  spec.pitch = 0.75;
  // A square roof of 4 m sides: level area 16, over the cosine of the slope, 0.8.
  EXPECT_NEAR(sheathing_area_m2(planned(4, 2.0, spec)), 20.0, kRounding);
}

}  // namespace
}  // namespace stakewright::roof
