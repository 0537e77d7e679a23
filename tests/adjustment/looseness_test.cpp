#include <gmock/gmock.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_matrix.h>
#include <gsl/gsl_vector.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "figures.hpp"
#include "refusal.hpp"
#include "stakewright/adjustment/adjust.hpp"

namespace stakewright::adjustment {
namespace {

using figures::joined;
using figures::Pair;
using figures::skips;

constexpr unsigned kSeed = 99;

Network pulled(int sides, const std::vector<Pair>& pairs) {
  Network network = figures::polygon(sides, 3.0, {1.0, 2.0}, 0.2);
  figures::pull_exactly(network, pairs, figures::planned_places(network), 0.002);
  return network;
}

std::vector<std::size_t> loose_points(const Adjustment& adjustment) {
  std::vector<std::size_t> points;
  for (const Loose& loose : adjustment.loose) points.push_back(loose.point);
  return points;
}

std::set<Pair> tapes_named(const Adjustment& adjustment) {
  std::set<Pair> tapes;
  for (const Loose& loose : adjustment.loose)
    for (const MissingTape& tape : loose.would_fix) tapes.insert(std::minmax(tape.from, tape.to));
  return tapes;
}

Network with(Network network, const std::set<Pair>& tapes) {
  figures::pull_exactly(network, {tapes.begin(), tapes.end()}, figures::planned_places(network),
                        0.002);
  return network;
}

/// Rank of the corners' design matrix at the plan by GSL's singular values; the center left out.
std::size_t rank_by_gsl(const Network& network) {
  const std::size_t cols = 2 * network.corner_count;
  const std::size_t rows = std::max(network.observations.size(), cols);
  gsl_matrix* A = gsl_matrix_calloc(rows, cols);
  gsl_matrix* V = gsl_matrix_alloc(cols, cols);
  gsl_vector* S = gsl_vector_alloc(cols);
  gsl_vector* work = gsl_vector_alloc(cols);
  for (std::size_t r = 0; r < network.observations.size(); ++r) {
    const auto& o = network.observations[r];
    const base::Point u = network.points[o.to].planned - network.points[o.from].planned;
    gsl_matrix_set(A, r, 2 * o.from, -u.x_m);
    gsl_matrix_set(A, r, 2 * o.from + 1, -u.y_m);
    gsl_matrix_set(A, r, 2 * o.to, u.x_m);
    gsl_matrix_set(A, r, 2 * o.to + 1, u.y_m);
  }
  gsl_linalg_SV_decomp(A, V, S, work);
  std::size_t rank = 0;
  while (rank < cols && gsl_vector_get(S, rank) > 1e-9 * gsl_vector_get(S, 0)) ++rank;
  gsl_matrix_free(A);
  gsl_matrix_free(V);
  gsl_vector_free(S);
  gsl_vector_free(work);
  return rank;
}

// Common practice, no source: sides and the diagonals through the middle are as many as a hexagon
// needs (9 of 9), and it still folds.
TEST(Looseness, SidesAndLongDiagonalsOfAnEvenPolygonFlop) {
  for (const int sides : {6, 8, 10, 12, 24}) {
    const std::size_t n = static_cast<std::size_t>(sides);
    const Network network = pulled(sides, joined(skips(n, 1), skips(n, n / 2)));
    const Adjustment result = adjust(network);
    EXPECT_EQ(result.status, Status::shape_not_fixed) << sides;
    EXPECT_EQ(result.loose.size(), n) << sides;
    EXPECT_EQ(adjust(with(network, tapes_named(result))).status, Status::settled) << sides;
  }
  const Adjustment hexagon = adjust(pulled(6, joined(skips(6, 1), skips(6, 3))));
  EXPECT_EQ(hexagon.readings, 0);
  EXPECT_EQ(tapes_named(hexagon).size(), 1U);
}

TEST(Looseness, SidesAloneHoldATriangleAndNothingElse) {
  EXPECT_EQ(adjust(pulled(3, skips(3, 1))).status, Status::settled);
  for (const int sides : {4, 5, 6, 9, 16, 48}) {
    const std::size_t n = static_cast<std::size_t>(sides);
    const Network network = pulled(sides, skips(n, 1));
    const Adjustment result = adjust(network);
    EXPECT_EQ(result.loose.size(), n) << sides;
    EXPECT_EQ(tapes_named(result).size(), n - 3) << sides;
    EXPECT_EQ(adjust(with(network, tapes_named(result))).status, Status::settled) << sides;
  }
}

TEST(Looseness, CornerRadiiAloneHoldNothing) {
  for (const int sides : {3, 5, 8, 13}) {
    const std::size_t n = static_cast<std::size_t>(sides);
    const Network network = pulled(sides, figures::radii(n));
    const Adjustment result = adjust(network);
    EXPECT_EQ(result.loose.size(), n);
    EXPECT_EQ(adjust(with(network, tapes_named(result))).status, Status::settled);
  }
}

TEST(Looseness, SidesAndRadiiHoldEveryPolygon) {
  for (const int sides : {3, 4, 5, 6, 8, 12, 24, 48}) {
    const std::size_t n = static_cast<std::size_t>(sides);
    const Adjustment result = adjust(pulled(sides, joined(skips(n, 1), figures::radii(n))));
    EXPECT_EQ(result.status, Status::settled) << sides;
    EXPECT_EQ(result.redundancy, 1) << sides;
    EXPECT_TRUE(result.place_known[n]) << sides;
  }
}

TEST(Looseness, NamesTheCornerNobodyTapedAndTwoTapesForIt) {
  std::vector<Pair> pairs = figures::all_pairs(6);
  std::erase_if(pairs, [](const Pair& p) { return p.first == 2 || p.second == 2; });
  const Network network = pulled(6, pairs);
  const Adjustment result = adjust(network);
  EXPECT_EQ(result.status, Status::shape_not_fixed);
  ASSERT_THAT(loose_points(result), ::testing::ElementsAre(2));
  ASSERT_EQ(result.loose[0].would_fix.size(), 2U);
  for (const MissingTape& tape : result.loose[0].would_fix)
    EXPECT_TRUE(tape.from == 2 || tape.to == 2);
  EXPECT_FALSE(result.place_known[2]);
  EXPECT_EQ(result.found[2], network.points[2].planned);
  EXPECT_EQ(result.covariance(4, 4), 0.0);
  EXPECT_TRUE(result.place_known[3]);
  EXPECT_GT(result.covariance(6, 6), 0.0);
  EXPECT_EQ(result.readings, 10);
  EXPECT_EQ(result.redundancy, 3);
}

TEST(Looseness, NamesTheCornerOnOneTapeAndLeavesThatTapeOutOfTheSums) {
  std::vector<Pair> pairs = figures::all_pairs(6);
  std::erase_if(pairs, [](const Pair& p) {
    return (p.first == 2 || p.second == 2) && p != Pair{2, 4};
  });
  const Network network = pulled(6, pairs);
  const Adjustment result = adjust(network);
  ASSERT_THAT(loose_points(result), ::testing::ElementsAre(2));
  ASSERT_EQ(result.loose[0].would_fix.size(), 1U);
  const AdjustedReading& hanging = result.readings_out[figures::reading(network, "C", "E")];
  EXPECT_FALSE(hanging.used);
  EXPECT_FALSE(hanging.excluded);
  EXPECT_TRUE(std::isinf(hanging.smallest_catch));
}

TEST(Looseness, AdjustsWhatHoldsTogetherAsIfTheLooseCornersWereNotThere) {
  std::mt19937 random(kSeed);
  Network network = figures::polygon(8, 3.0);
  const auto truth = figures::staked(network, 0.01, random);
  std::vector<Pair> pairs;  // A to E braced; F, G, H on sides only
  for (const Pair& pair : figures::all_pairs(5)) pairs.push_back(pair);
  Network alone = network;
  figures::pull(alone, pairs, truth, 0.002, random);
  network.observations = alone.observations;
  figures::pull_exactly(network, {{4, 5}, {5, 6}, {6, 7}, {7, 0}}, truth, 0.002);
  const Adjustment part = adjust(network);
  const Adjustment whole = adjust(alone);
  EXPECT_THAT(loose_points(part), ::testing::ElementsAre(5, 6, 7));
  EXPECT_NEAR(part.chi_square, whole.chi_square, 1e-9);
  for (std::size_t corner = 0; corner < 5; ++corner)
    EXPECT_LT(base::distance_m(part.found[corner], whole.found[corner]), 1e-11);
  EXPECT_EQ(adjust(with(network, tapes_named(part))).status, Status::settled);
}

TEST(Looseness, TakesTheLargerOfTwoPartsThatHoldTogetherAsTheFirmOne) {
  // A to E braced and F to H braced, one side between them each way.
  std::vector<Pair> pairs = figures::all_pairs(5);
  pairs = joined(pairs, {{5, 6}, {5, 7}, {6, 7}, {4, 5}, {7, 0}});
  const Network network = pulled(8, pairs);
  const Adjustment result = adjust(network);
  EXPECT_THAT(loose_points(result), ::testing::ElementsAre(5, 6, 7));
  EXPECT_EQ(tapes_named(result).size(), 1U);
  for (const Loose& loose : result.loose) EXPECT_EQ(loose.would_fix.size(), 1U);
}

TEST(Looseness, OneTapeToTheCenterLoosensNoCorner) {
  const Network network = pulled(6, joined(figures::all_pairs(6), {{0, 6}}));
  const Adjustment result = adjust(network);
  EXPECT_EQ(result.status, Status::settled);
  EXPECT_EQ(result.redundancy, 6);
  EXPECT_FALSE(result.place_known[6]);
  EXPECT_FALSE(result.readings_out.back().used);
  EXPECT_THAT(told_in_english(result.remarks),
              ::testing::Contains(::testing::HasSubstr("center pin")));
}

TEST(Looseness, TwoTapesInLineThroughTheCenterLoosenNoCorner) {
  const Network network = pulled(6, joined(figures::all_pairs(6), {{0, 6}, {6, 3}}));
  const Adjustment result = adjust(network);
  EXPECT_EQ(result.status, Status::settled);
  EXPECT_FALSE(result.place_known[6]);
}

TEST(Looseness, TwoTapesThatCrossAtTheCenterPlaceIt) {
  const Network network = pulled(6, joined(figures::all_pairs(6), {{0, 6}, {1, 6}}));
  const Adjustment result = adjust(network);
  EXPECT_EQ(result.status, Status::settled);
  EXPECT_TRUE(result.place_known[6]);
  EXPECT_EQ(result.redundancy, 6);
}

TEST(Looseness, TwoPinsAndTwoTapesPlaceACornerByThemselves) {
  layout::Plan plan;
  plan.polygon = {6, 2.5};
  plan.pins = {{"P1", {-5.0, -4.0}}, {"P2", {6.0, -4.5}}};
  readings::Instrument tape;
  tape.name = "tape";
  Network site = network(plan, {}, {tape});
  figures::pull_exactly(site, {{7, 0}, {8, 0}, {7, 3}, {8, 3}}, figures::planned_places(site),
                        0.002);
  const Adjustment result = adjust(site);
  EXPECT_EQ(result.status, Status::shape_not_fixed);
  EXPECT_THAT(loose_points(result), ::testing::ElementsAre(1, 2, 4, 5));
  EXPECT_TRUE(result.place_known[0]);
  EXPECT_TRUE(result.place_known[3]);
}

TEST(Looseness, SaysWhenThereAreNoReadings) {
  const Network network = figures::polygon(5, 3.0);
  const Adjustment result = adjust(network);
  EXPECT_EQ(result.status, Status::no_readings);
  EXPECT_EQ(result.loose.size(), 5U);
  EXPECT_EQ(tapes_named(result).size(), 7U);
  EXPECT_EQ(adjust(with(network, tapes_named(result))).status, Status::settled);
}

TEST(Looseness, AgreesWithTheRankByAnotherLibraryOverRandomSets) {
  std::mt19937 random(kSeed + 1);
  int fixed = 0;
  for (int round = 0; round < 150; ++round) {
    Network network = figures::random_polygon(random, 10);
    std::vector<Pair> pairs = figures::all_pairs(network.corner_count);
    std::shuffle(pairs.begin(), pairs.end(), random);
    const std::size_t needed = 2 * network.corner_count - 3;
    pairs.resize(std::min(pairs.size(), needed + static_cast<std::size_t>(round % 3)));
    figures::pull_exactly(network, pairs, figures::planned_places(network), 0.002);
    const bool settled = adjust(network).status == Status::settled;
    EXPECT_EQ(settled, rank_by_gsl(network) == needed) << "round " << round;
    if (settled) ++fixed;
  }
  EXPECT_GT(fixed, 30);
  EXPECT_LT(fixed, 140);
}

TEST(Looseness, NamesTapesThatFixTheShapeAndNoneTooMany) {
  std::mt19937 random(kSeed + 2);
  for (int round = 0; round < 60; ++round) {
    Network network = figures::random_polygon(random, 12);
    std::vector<Pair> pairs = figures::all_pairs(network.corner_count);
    std::shuffle(pairs.begin(), pairs.end(), random);
    pairs.resize(static_cast<std::size_t>(round) % (2 * network.corner_count - 3));
    figures::pull_exactly(network, pairs, figures::planned_places(network), 0.002);
    const Adjustment result = adjust(network);
    const std::set<Pair> tapes = tapes_named(result);
    EXPECT_EQ(tapes.size() + rank_by_gsl(network), 2 * network.corner_count - 3)
        << "round " << round;
    EXPECT_EQ(adjust(with(network, tapes)).status, Status::settled) << "round " << round;
    for (const Pair& tape : tapes) EXPECT_FALSE(std::count(pairs.begin(), pairs.end(), tape));
  }
}

TEST(Looseness, GivesEachCornerTheTapesThatFixItAlone) {
  std::mt19937 random(kSeed + 3);
  for (int round = 0; round < 30; ++round) {
    // A braced half, and corners beyond it with few tapes.
    Network network = figures::polygon(9, 3.0);
    std::vector<Pair> pairs = figures::all_pairs(5);
    std::vector<Pair> others;
    for (const Pair& pair : figures::all_pairs(9))
      if (pair.second >= 5) others.push_back(pair);
    std::shuffle(others.begin(), others.end(), random);
    others.resize(4);
    figures::pull_exactly(network, joined(pairs, others), figures::planned_places(network), 0.002);
    const Adjustment result = adjust(network);
    for (const Loose& loose : result.loose) {
      std::set<Pair> own;
      for (const MissingTape& tape : loose.would_fix) own.insert(std::minmax(tape.from, tape.to));
      EXPECT_TRUE(adjust(with(network, own)).place_known[loose.point])
          << "round " << round << ", corner " << network.points[loose.point].label;
    }
  }
}

}  // namespace
}  // namespace stakewright::adjustment
