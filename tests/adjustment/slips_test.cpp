#include "stakewright/adjustment/slips.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "figures.hpp"

namespace stakewright::adjustment {
namespace {

using figures::joined;
using figures::Pair;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

constexpr unsigned kSeed = 404;
constexpr double kMisread = 0.02;
constexpr double kInch_m = 0.0254;

struct Story {
  Network network;
  std::set<std::size_t> misread;
};

/// A polygon with all its sides, diagonals and radii; `slips` readings misread by `size_m` either
/// way.
Story story(int sides, std::size_t slips, double size_m, std::mt19937& random) {
  Story result{figures::polygon(sides, 3.5), {}};
  Network& network = result.network;
  const std::size_t n = network.corner_count;
  const auto truth = figures::staked(network, 0.003, random);
  figures::pull(network, joined(figures::all_pairs(n), figures::radii(n)), truth, 0.002, random);
  std::uniform_int_distribution<std::size_t> any(0, network.observations.size() - 1);
  while (result.misread.size() < slips) result.misread.insert(any(random));
  std::bernoulli_distribution heads;
  for (const std::size_t r : result.misread)
    network.observations[r].corrected += heads(random) ? size_m : -size_m;
  return result;
}

SlipTest weighed(const Network& network) { return weigh_slips(network, adjust(network), kMisread); }

std::set<std::size_t> as_set(const std::vector<std::size_t>& readings) {
  return {readings.begin(), readings.end()};
}

struct Rates {
  double led = 0.0;
  double named = 0.0;
  double blamed = 0.0;  ///< a good tape named
};

Rates rates(int sides, std::size_t slips, double size_m, unsigned seed, int rounds = 150) {
  std::mt19937 random(seed);
  Rates result;
  for (int round = 0; round < rounds; ++round) {
    const Story s = story(sides, slips, size_m, random);
    const SlipTest test = weighed(s.network);
    const std::set<std::size_t> named = as_set(test.excluded);
    if (as_set(test.ranked.front().readings) == s.misread) result.led += 1.0 / rounds;
    if (named == s.misread) result.named += 1.0 / rounds;
    if (!std::includes(s.misread.begin(), s.misread.end(), named.begin(), named.end()))
      result.blamed += 1.0 / rounds;
  }
  fmt::print("{} sides, {} slips of {:.3f} m: led {:.3f}, named {:.3f}, good tape blamed {:.3f}\n",
             sides, slips, size_m, result.led, result.named, result.blamed);
  return result;
}

TEST(Slips, OfAnInchInOneReadingAreNamed) {
  for (const int sides : {5, 6, 8}) {
    const Rates found = rates(sides, 1, kInch_m, kSeed);
    EXPECT_GE(found.led, 0.96) << "seed " << kSeed;
    EXPECT_GE(found.named, 0.95) << "seed " << kSeed;
    EXPECT_LE(found.blamed, 0.02) << "seed " << kSeed;
  }
}

TEST(Slips, OfAnInchInTwoReadingsAreNamedTogetherWhereThereAreTapesEnough) {
  const Rates hexagon = rates(6, 2, kInch_m, kSeed + 1);
  EXPECT_GE(hexagon.named, 0.80);
  EXPECT_LE(hexagon.blamed, 0.03);
  const Rates octagon = rates(8, 2, kInch_m, kSeed + 1);
  EXPECT_GE(octagon.named, 0.95);
  EXPECT_LE(octagon.blamed, 0.02);
}

TEST(Slips, InThreeReadingsOfAnOctagonAreNamedTogether) {
  const Rates octagon = rates(8, 3, kInch_m, kSeed + 2, 80);
  EXPECT_GE(octagon.named, 0.90);
  EXPECT_LE(octagon.blamed, 0.03);
}

TEST(Slips, OfAFootOrTenFeetAreNamedThoughTheyBendTheWholeFigure) {
  for (const double size_m : {12 * kInch_m, 120 * kInch_m})
    for (const int sides : {5, 8}) EXPECT_GE(rates(sides, 1, size_m, kSeed + 3, 80).named, 0.97);
}

TEST(Slips, AreSeldomSeenInGoodReadings) {
  for (const int sides : {5, 6, 8}) {
    const Rates good = rates(sides, 0, 0.0, kSeed + 4);
    EXPECT_LE(good.blamed, 0.02);
    EXPECT_GE(good.led, 0.97);
  }
}

/// The rule this project does not follow: leave out the worst reading, adjust again, go on.
std::set<std::size_t> worst_after_worst(const Network& network) {
  std::set<std::size_t> left_out;
  while (true) {
    const Adjustment result = adjust(network, {left_out.begin(), left_out.end()});
    const AdjustedReading* worst = nullptr;
    double size = 3.2905;  // two-sided 0.001
    for (const AdjustedReading& reading : result.readings_out) {
      if (reading.excluded || std::abs(reading.standardized) <= size) continue;
      size = std::abs(reading.standardized);
      worst = &reading;
    }
    if (worst == nullptr) return left_out;
    left_out.insert(worst->observation);
  }
}

bool blames_a_good_tape(const std::set<std::size_t>& named, const std::set<std::size_t>& misread) {
  return !std::includes(misread.begin(), misread.end(), named.begin(), named.end());
}

TEST(Slips, InTwoReadingsOfAPentagonAreNotBlamedOnGoodTapesAsByLeavingOutTheWorst) {
  std::mt19937 random(kSeed + 5);
  int joint = 0;
  int one_by_one = 0;
  int told_apart = 0;  // the joint weighing names both where worst after worst blames a good tape
  constexpr int kRounds = 150;
  for (int round = 0; round < kRounds; ++round) {
    const Story s = story(5, 2, 2 * kInch_m, random);
    const std::set<std::size_t> named = as_set(weighed(s.network).excluded);
    const bool worst_blames = blames_a_good_tape(worst_after_worst(s.network), s.misread);
    if (blames_a_good_tape(named, s.misread)) ++joint;
    if (worst_blames) ++one_by_one;
    if (worst_blames && named == s.misread) ++told_apart;
  }
  fmt::print(
      "two slips in a pentagon, good tape blamed: jointly {} of {}, worst after worst {}; "
      "told apart where that one fails: {}\n",
      joint, kRounds, one_by_one, told_apart);
  EXPECT_LT(10 * joint, kRounds);
  EXPECT_GT(one_by_one, 3 * joint);
  EXPECT_GT(told_apart, 10);
}

TEST(Slips, AreReportedWithTheirSizeAndSign) {
  Network network = figures::polygon(6, 3.5);
  figures::pull_exactly(network, joined(figures::all_pairs(6), figures::radii(6)),
                        figures::planned_places(network), 0.002);
  const std::size_t long_one = figures::reading(network, "B", "E");
  const std::size_t short_one = figures::reading(network, "A", "F");
  network.observations[long_one].corrected += 0.0508;
  network.observations[short_one].corrected -= 0.1;
  const SlipTest test = weighed(network);
  EXPECT_EQ(test.verdict, SlipVerdict::named);
  EXPECT_THAT(test.excluded, ::testing::UnorderedElementsAre(long_one, short_one));
  const SlipSet& lead = test.ranked.front();
  for (std::size_t i = 0; i < lead.readings.size(); ++i)
    EXPECT_NEAR(lead.slips[i], lead.readings[i] == long_one ? 0.0508 : -0.1, 0.001);
}

TEST(Slips, HaveChancesInOrderThatAddToNoMoreThanOne) {
  std::mt19937 random(kSeed + 6);
  for (int round = 0; round < 40; ++round) {
    const Story s = story(5 + round % 4, static_cast<std::size_t>(round % 3), 0.015, random);
    const SlipTest test = weighed(s.network);
    double sum = 0.0;
    double last = 1.0;
    for (const SlipSet& set : test.ranked) {
      EXPECT_LE(set.chance, last);
      EXPECT_EQ(set.readings.size(), set.slips.size());
      last = set.chance;
      sum += set.chance;
    }
    EXPECT_LE(sum, 1.0 + 1e-12);
    EXPECT_GT(sum, 0.3);
    EXPECT_EQ(test.excluded.empty(), test.verdict != SlipVerdict::named);
  }
}

TEST(Slips, CannotBeNamedWithOneSpareReading) {
  Network network = figures::polygon(4, 3.5);
  figures::pull_exactly(network, figures::all_pairs(4), figures::planned_places(network), 0.002);
  EXPECT_EQ(weighed(network).verdict, SlipVerdict::none);
  network.observations[2].corrected += 0.3;
  const SlipTest test = weighed(network);
  EXPECT_EQ(test.verdict, SlipVerdict::not_separable);
  EXPECT_THAT(test.excluded, IsEmpty());
  EXPECT_THAT(test.groups, ElementsAre(ElementsAre(0, 1, 2, 3, 4, 5)));
}

TEST(Slips, HaveNothingToShowWithoutSpareReadings) {
  Network network = figures::polygon(3, 3.5);
  figures::pull_exactly(network, figures::all_pairs(3), figures::planned_places(network), 0.002);
  network.observations[0].corrected += 0.3;
  const SlipTest test = weighed(network);
  EXPECT_EQ(test.verdict, SlipVerdict::none);
  EXPECT_THAT(test.groups, IsEmpty());
  EXPECT_THAT(
      weigh_slips(figures::polygon(5, 3.0), adjust(figures::polygon(5, 3.0)), kMisread).ranked,
      IsEmpty());
}

/// A hexagon with all tapes but two of corner D's: three hold it, one of them spare.
Network three_tapes_to_one_corner() {
  Network network = figures::polygon(6, 3.5);
  std::vector<Pair> pairs = figures::all_pairs(6);
  std::erase_if(pairs, [](const Pair& p) { return p == Pair{0, 3} || p == Pair{3, 5}; });
  figures::pull_exactly(network, pairs, figures::planned_places(network), 0.002);
  return network;
}

TEST(Slips, InOneOfThreeTapesToACornerPointToTheThreeAlike) {
  Network network = three_tapes_to_one_corner();
  const std::vector<std::size_t> three = {figures::reading(network, "B", "D"),
                                          figures::reading(network, "C", "D"),
                                          figures::reading(network, "D", "E")};
  EXPECT_THAT(weighed(network).groups, ElementsAre(::testing::UnorderedElementsAreArray(three)));
  network.observations[three[1]].corrected += 0.08;
  const SlipTest in_group = weighed(network);
  EXPECT_EQ(in_group.verdict, SlipVerdict::not_separable);
  for (std::size_t i = 0; i < 3; ++i)
    EXPECT_THAT(three, ::testing::Contains(in_group.ranked[i].readings.front()));
}

TEST(Slips, OutsideAGroupAreNamedThoughAGroupIsThere) {
  Network network = three_tapes_to_one_corner();
  const std::size_t bad = figures::reading(network, "A", "C");
  network.observations[bad].corrected += 0.08;
  const SlipTest test = weighed(network);
  EXPECT_EQ(test.verdict, SlipVerdict::named);
  EXPECT_THAT(test.excluded, ElementsAre(bad));
}

TEST(Slips, TellWhichOfTwoPullsOfOnePairIsTheBadOne) {
  std::mt19937 random(kSeed + 7);
  Network network = figures::polygon(6, 3.5);
  const auto truth = figures::staked(network, 0.003, random);
  figures::pull(network, figures::all_pairs(6), truth, 0.002, random);
  network.observations.push_back(network.observations[0]);
  network.observations.back().corrected += 8 * kInch_m;
  const SlipTest test = weighed(network);
  EXPECT_EQ(test.verdict, SlipVerdict::named);
  EXPECT_THAT(test.excluded, ElementsAre(network.observations.size() - 1));
}

TEST(Slips, AreFoundFromThePlanWhenTheSumsDoNotSettle) {
  std::mt19937 random(kSeed + 8);
  Network network = figures::polygon(5, 1.5);
  const auto truth = figures::staked(network, 0.003, random);
  figures::pull(network, joined(figures::all_pairs(5), figures::radii(5)), truth, 0.002, random);
  network.observations[1].corrected += 6.0;
  const Adjustment all = adjust(network);
  ASSERT_EQ(all.status, Status::did_not_settle);
  const SlipTest test = weigh_slips(network, all, kMisread);
  EXPECT_EQ(test.verdict, SlipVerdict::named);
  ASSERT_THAT(test.excluded, ElementsAre(1));
  const Adjustment used = adjust(network, {1});
  EXPECT_EQ(used.status, Status::settled);
  EXPECT_TRUE(used.passed);
}

TEST(Slips, AreWeighedInThePartThatHoldsTogetherWhenCornersAreLoose) {
  std::mt19937 random(kSeed + 9);
  Network network = figures::polygon(8, 3.5);
  const auto truth = figures::staked(network, 0.003, random);
  figures::pull(network, joined(figures::all_pairs(6), {{6, 7}, {7, 0}}), truth, 0.002, random);
  network.observations[4].corrected += 2 * kInch_m;
  const Adjustment all = adjust(network);
  ASSERT_EQ(all.status, Status::shape_not_fixed);
  const SlipTest test = weigh_slips(network, all, kMisread);
  EXPECT_THAT(test.excluded, ElementsAre(4));
}

TEST(Slips, LeaveReadingsAloneThatWereExcludedBefore) {
  std::mt19937 random(kSeed + 10);
  Story s = story(6, 0, 0.0, random);
  s.network.observations[2].corrected += 0.1;
  s.network.observations[9].corrected += 0.1;
  const SlipTest test = weigh_slips(s.network, adjust(s.network, {2}), kMisread);
  EXPECT_THAT(test.excluded, ElementsAre(9));
}

TEST(Slips, AreNotNamedWhenMoreIsWrongThanThreeReadings) {
  std::mt19937 random(kSeed + 11);
  for (int round = 0; round < 10; ++round) {
    const Story s = story(6, 9, 4 * kInch_m, random);
    EXPECT_NE(weighed(s.network).verdict, SlipVerdict::none) << "round " << round;
    EXPECT_FALSE(blames_a_good_tape(as_set(weighed(s.network).excluded), s.misread))
        << "round " << round;
  }
}

}  // namespace
}  // namespace stakewright::adjustment
