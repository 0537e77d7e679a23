#include "stakewright/forms/reading_rows.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace stakewright::forms {
namespace {

layout::Plan plan_of(int sides) {
  layout::Plan plan;
  plan.polygon = {sides, 3.0};
  plan.facing_rad = 0.4;
  return plan;
}

std::map<std::string, base::Point> points_of(const layout::Plan& plan) {
  std::map<std::string, base::Point> points{{"O", plan.center}};
  for (const layout::Stake& stake : layout::stakes(plan)) points[stake.label] = stake.at;
  for (const layout::Pin& pin : plan.pins) points[pin.name] = pin.at;
  return points;
}

/// Rank of the lengths' derivatives by the points' places, by elimination with full row choice.
std::size_t rank_of(const layout::Plan& plan, const std::vector<layout::Tape>& tapes) {
  std::map<std::string, std::size_t> column;
  const auto points = points_of(plan);
  for (const auto& entry : points) column[entry.first] = 2 * column.size();
  std::vector<std::vector<double>> rows;
  for (const layout::Tape& tape : tapes) {
    const base::Point from = points.at(tape.from);
    const base::Point to = points.at(tape.to);
    const base::Point unit = (1.0 / base::distance_m(from, to)) * (to - from);
    std::vector<double> row(2 * points.size(), 0.0);
    row[column[tape.to]] = unit.x_m;
    row[column[tape.to] + 1] = unit.y_m;
    row[column[tape.from]] = -unit.x_m;
    row[column[tape.from] + 1] = -unit.y_m;
    rows.push_back(row);
  }
  std::size_t rank = 0;
  for (std::size_t col = 0; col < 2 * points.size() && rank < rows.size(); ++col) {
    auto pivot = std::max_element(
        rows.begin() + static_cast<std::ptrdiff_t>(rank), rows.end(),
        [&](const auto& a, const auto& b) { return std::abs(a[col]) < std::abs(b[col]); });
    if (std::abs((*pivot)[col]) < 1e-9) continue;
    std::swap(*pivot, rows[rank]);
    for (std::size_t r = rank + 1; r < rows.size(); ++r) {
      const double factor = rows[r][col] / rows[rank][col];
      if (factor == 0.0) continue;
      for (std::size_t c = col; c < rows[r].size(); ++c) rows[r][c] -= factor * rows[rank][c];
    }
    ++rank;
  }
  return rank;
}

// Two coordinates a point, less two shifts and a turn: no set of lengths can fix more.
std::size_t full_rank(int sides) { return 2 * (static_cast<std::size_t>(sides) + 1) - 3; }

TEST(StandingTapes, AreAllThereAreUpToTwelveSides) {
  for (int sides = 3; sides <= 12; ++sides) {
    // n(n-1)/2 sides and diagonals, n corner radii: counted, not computed by the layout.
    const int count = sides * (sides - 1) / 2 + sides;
    EXPECT_EQ(standing_tapes(plan_of(sides)).size(), static_cast<std::size_t>(count));
  }
}

TEST(StandingTapes, AreThreeToAStakeAndSixAcrossForManySides) {
  for (int sides = 13; sides <= 48; ++sides) {
    const auto tapes = standing_tapes(plan_of(sides));
    EXPECT_EQ(tapes.size(), static_cast<std::size_t>(3 * sides + 6));
    std::set<std::set<std::string>> pairs;
    for (const layout::Tape& tape : tapes) pairs.insert({tape.from, tape.to});
    EXPECT_EQ(pairs.size(), tapes.size()) << sides << " sides: a pair comes twice";
  }
}

TEST(StandingTapes, FixTheShape) {
  for (int sides = 3; sides <= 48; ++sides)
    EXPECT_EQ(rank_of(plan_of(sides), standing_tapes(plan_of(sides))), full_rank(sides))
        << sides << " sides";
}

TEST(StandingTapes, FixTheShapeWithoutAnyOneOfThem) {
  for (const int sides : {4, 5, 12, 13, 24, 48}) {
    const layout::Plan plan = plan_of(sides);
    const auto tapes = standing_tapes(plan);
    for (std::size_t i = 0; i < tapes.size(); ++i) {
      auto rest = tapes;
      rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(i));
      ASSERT_EQ(rank_of(plan, rest), full_rank(sides))
          << sides << " sides, without " << tapes[i].from << " to " << tapes[i].to;
    }
  }
}

TEST(Stations, TakeEachTapeOnceWithItsZeroAtTheHold) {
  for (const int sides : {3, 6, 11, 13, 30}) {
    const layout::Plan plan = plan_of(sides);
    const auto tapes = standing_tapes(plan);
    std::multiset<std::set<std::string>> asked;
    std::multiset<std::set<std::string>> found;
    for (const layout::Tape& tape : tapes) asked.insert({tape.from, tape.to});
    std::set<std::string> holds;
    for (const Station& station : by_station(plan, tapes)) {
      EXPECT_TRUE(holds.insert(station.hold).second) << station.hold << " is held twice";
      for (const layout::Tape& tape : station.tapes) {
        EXPECT_EQ(tape.from, station.hold);
        found.insert({tape.from, tape.to});
      }
    }
    EXPECT_EQ(found, asked) << sides << " sides";
  }
}

/// How far both ends walk, starting where the first tape is.
double walk_m(const layout::Plan& plan, const std::vector<layout::Tape>& tapes) {
  const auto points = points_of(plan);
  double sum = 0.0;
  for (std::size_t i = 1; i < tapes.size(); ++i)
    sum += base::distance_m(points.at(tapes[i - 1].from), points.at(tapes[i].from)) +
           base::distance_m(points.at(tapes[i - 1].to), points.at(tapes[i].to));
  return sum;
}

TEST(Stations, KeepTheWalkShort) {
  for (int sides = 4; sides <= 12; ++sides) {
    const layout::Plan plan = plan_of(sides);
    const auto listed = layout::check_tapes(plan);
    std::vector<layout::Tape> in_order;
    for (const Station& station : by_station(plan, listed))
      in_order.insert(in_order.end(), station.tapes.begin(), station.tapes.end());
    EXPECT_LT(walk_m(plan, in_order), 0.75 * walk_m(plan, listed)) << sides << " sides";
  }
}

TEST(Stations, GoRoundOneWayAndBackTheOther) {
  const layout::Plan plan = plan_of(5);
  auto tapes = standing_tapes(plan);
  std::erase_if(tapes, [](const auto& tape) { return tape.skip == 0; });
  const auto stations = by_station(plan, tapes);
  ASSERT_EQ(stations.size(), 4U);
  std::string walk;
  for (const Station& station : stations) {
    walk += station.hold + ":";
    for (const layout::Tape& tape : station.tapes) walk += tape.to;
    walk += " ";
  }
  EXPECT_EQ(walk, "A:BCDE B:EDC C:DE D:E ");  // walked on paper
}

TEST(Stations, TakeInPinsAndTheCenter) {
  layout::Plan plan = plan_of(4);
  plan.pins = {{"P1", {-5.0, -5.0}}};
  const std::vector<layout::Tape> tapes{
      {"P1", "A", 0, 6.0}, {"P1", "O", 0, 7.0}, {"B", "P1", 0, 8.0}};
  const auto stations = by_station(plan, tapes);
  ASSERT_EQ(stations.size(), 1U);
  EXPECT_EQ(stations[0].hold, "P1");
  EXPECT_EQ(stations[0].tapes.size(), 3U);
}

}  // namespace
}  // namespace stakewright::forms
