#include "stakewright/adjustment/adjust.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "figures.hpp"
#include "refusal.hpp"

namespace stakewright::adjustment {
namespace {

using figures::joined;
using figures::Pair;
using figures::skips;

constexpr unsigned kSeed = 20240611;

/// Every distance between corners of the places found, against those of the true places.
double worst_distance_m(const Network& network, const std::vector<base::Point>& found,
                        const std::vector<base::Point>& truth) {
  double worst = 0.0;
  for (const auto& [a, b] : figures::all_pairs(network.corner_count))
    worst = std::max(worst, std::abs(base::distance_m(found[a], found[b]) -
                                     base::distance_m(truth[a], truth[b])));
  return worst;
}

/// A braced figure: sides, the next diagonals, corner radii, and a third of the other diagonals.
std::vector<Pair> braced(std::size_t sides, std::mt19937& random) {
  std::vector<Pair> pairs = joined(skips(sides, 1), figures::radii(sides));
  if (sides > 3) pairs = joined(pairs, skips(sides, 2));
  std::bernoulli_distribution third(0.33);
  for (std::size_t skip = 3; 2 * skip <= sides; ++skip)
    for (const Pair& pair : skips(sides, skip))
      if (third(random)) pairs.push_back(pair);
  return pairs;
}

TEST(Adjust, RecoversTheShapeFromReadingsWithoutError) {
  std::mt19937 random(kSeed);
  for (int round = 0; round < 40; ++round) {
    Network network = figures::random_polygon(random, 16);
    const auto truth = figures::staked(network, 0.02, random);
    figures::pull_exactly(network, braced(network.corner_count, random), truth, 0.002);
    const Adjustment result = adjust(network);
    ASSERT_EQ(result.status, Status::settled) << "round " << round;
    EXPECT_LT(worst_distance_m(network, result.found, truth), 1e-10) << "round " << round;
    EXPECT_NEAR(result.chi_square, 0.0, 1e-12);
    EXPECT_TRUE(result.passed);
  }
}

TEST(Adjust, CountsUnknownsAndRedundancyOfAFreeFigure) {
  std::mt19937 random(kSeed);
  Network network = figures::polygon(6, 2.5);
  figures::pull(network, figures::all_pairs(6), figures::planned_places(network), 0.002, random);
  const Adjustment result = adjust(network);
  EXPECT_EQ(result.readings, 15);
  EXPECT_EQ(result.unknowns, 9);  // twelve coordinates less two shifts and a turn
  EXPECT_EQ(result.redundancy, 6);
  EXPECT_FALSE(result.place_known[6]);  // no tape reaches the center pin
}

TEST(Adjust, GivesRedundancyNumbersThatSumToTheRedundancy) {
  std::mt19937 random(kSeed + 1);
  for (int round = 0; round < 60; ++round) {
    Network network = figures::random_polygon(random, 14);
    network.instruments[0].scale = round % 3 == 0 ? 2e-4 : 0.0;
    network.instruments[0].zero_m = round % 2 == 0 ? 1e-3 : 0.0;
    const auto truth = figures::staked(network, 0.005, random);
    figures::pull(network, braced(network.corner_count, random), truth, 0.002, random);
    const Adjustment result = adjust(network);
    ASSERT_EQ(result.status, Status::settled);
    double sum = 0.0;
    for (const AdjustedReading& reading : result.readings_out) {
      EXPECT_GE(reading.redundancy, 0.0);
      EXPECT_LE(reading.redundancy, 1.0);
      sum += reading.redundancy;
    }
    // A prior's share is what the readings take off its variance.
    for (const AdjustedInstrument& instrument : result.instruments) {
      const readings::Instrument& prior = network.instruments[instrument.instrument];
      if (prior.scale > 0.0) sum += 1.0 - std::pow(instrument.scale_sd / prior.scale, 2);
      if (prior.zero_m > 0.0) sum += 1.0 - std::pow(instrument.zero_sd_m / prior.zero_m, 2);
    }
    EXPECT_NEAR(sum, result.redundancy, 1e-7) << "round " << round;
  }
}

TEST(Adjust, GivesTheSameResidualsWhereverTheSiteLiesAndHoweverItIsTurned) {
  std::mt19937 random(kSeed + 2);
  for (int round = 0; round < 20; ++round) {
    Network here = figures::random_polygon(random);
    const auto truth = figures::staked(here, 0.01, random);
    figures::pull(here, braced(here.corner_count, random), truth, 0.002, random);
    Network there = here;
    const double turn = 0.7 + round;
    for (NetworkPoint& point : there.points)
      point.planned =
          base::Point{100.0, -250.0} +
          base::Point{std::cos(turn) * point.planned.x_m - std::sin(turn) * point.planned.y_m,
                      std::sin(turn) * point.planned.x_m + std::cos(turn) * point.planned.y_m};
    const Adjustment a = adjust(here);
    const Adjustment b = adjust(there);
    EXPECT_NEAR(a.chi_square, b.chi_square, 1e-7);
    for (std::size_t r = 0; r < here.observations.size(); ++r) {
      EXPECT_NEAR(a.readings_out[r].residual, b.readings_out[r].residual, 1e-11);
      EXPECT_NEAR(a.readings_out[r].redundancy, b.readings_out[r].redundancy, 1e-9);
    }
    EXPECT_LT(worst_distance_m(here, a.found, b.found), 1e-11);
  }
}

TEST(Adjust, DoesNotCareWhereTheLabelsStart) {
  std::mt19937 random(kSeed + 3);
  for (int round = 0; round < 20; ++round) {
    Network first = figures::random_polygon(random);
    const std::size_t sides = first.corner_count;
    const auto truth = figures::staked(first, 0.01, random);
    figures::pull(first, braced(sides, random), truth, 0.002, random);
    const std::size_t step = 1 + static_cast<std::size_t>(round) % (sides - 1);
    Network second = first;
    const auto renamed = [&](std::size_t p) { return p < sides ? (p + step) % sides : p; };
    for (std::size_t p = 0; p < sides; ++p)
      second.points[renamed(p)].planned = first.points[p].planned;
    for (readings::Observation& observation : second.observations) {
      observation.from = renamed(observation.from);
      observation.to = renamed(observation.to);
    }
    const Adjustment a = adjust(first);
    const Adjustment b = adjust(second);
    for (std::size_t p = 0; p < first.points.size(); ++p)
      EXPECT_LT(base::distance_m(a.found[p], b.found[renamed(p)]), 1e-10);
    for (std::size_t r = 0; r < first.observations.size(); ++r)
      EXPECT_NEAR(a.readings_out[r].standardized, b.readings_out[r].standardized, 1e-8);
  }
}

TEST(Adjust, TakesAPairPulledTwiceAsTwoReadings) {
  Network once = figures::polygon(4, 3.0);
  figures::pull_exactly(once, figures::all_pairs(4), figures::planned_places(once), 0.002);
  Network twice = once;
  twice.observations.push_back(once.observations[0]);
  twice.observations[0].corrected += 0.001;
  twice.observations.back().corrected -= 0.001;
  const Adjustment result = adjust(twice);
  EXPECT_EQ(result.redundancy, adjust(once).redundancy + 1);
  // The two differ by 2 mm about a figure that fits: each is off by one, and nothing else moves.
  EXPECT_NEAR(result.readings_out[0].residual, -0.001, 1e-9);
  EXPECT_NEAR(result.readings_out.back().residual, 0.001, 1e-9);
  EXPECT_NEAR(result.chi_square, 0.5, 1e-6);
}

TEST(Adjust, SetsTheSmallestCatchByTheRedundancyNumber) {
  std::mt19937 random(kSeed + 4);
  Network network = figures::polygon(5, 3.0);
  figures::pull(network, figures::all_pairs(5), figures::planned_places(network), 0.003, random);
  // δ₀ = 4.1321 for a false alarm of 0.001 and a power of 0.80 (Baarda 1968, from the definition).
  const Adjustment result = adjust(network);
  for (const AdjustedReading& reading : result.readings_out)
    EXPECT_NEAR(reading.smallest_catch, 4.13215 * 0.003 / std::sqrt(reading.redundancy), 1e-7);
}

TEST(Adjust, SharesTheFalseAlarmsOfALongList) {
  std::mt19937 random(kSeed + 5);
  Network network = figures::polygon(12, 3.0);
  figures::pull(network, figures::all_pairs(12), figures::planned_places(network), 0.003, random);
  // 66 readings: alpha 0.04 / 66 = 0.000606; z(1 − alpha/2) = 3.4293 and z(0.80) = 0.8416, from
  // a table of the normal distribution, between 3.42 (0.999687) and 3.43 (0.999698).
  const AdjustedReading reading = adjust(network).readings_out[0];
  EXPECT_NEAR(reading.smallest_catch * std::sqrt(reading.redundancy) / 0.003, 4.271, 0.002);
}

TEST(Adjust, HasNothingToCatchASlipWithWhenNoReadingIsSpare) {
  Network network = figures::polygon(3, 3.0);
  figures::pull_exactly(network, skips(3, 1), figures::planned_places(network), 0.002);
  network.observations[0].corrected += 0.05;
  const Adjustment result = adjust(network);
  EXPECT_EQ(result.status, Status::settled);
  EXPECT_EQ(result.redundancy, 0);
  EXPECT_EQ(result.chi_square_limit, 0.0);
  EXPECT_EQ(result.variance_factor, 1.0);
  EXPECT_TRUE(result.passed);
  for (const AdjustedReading& reading : result.readings_out) {
    EXPECT_EQ(reading.standardized, 0.0);
    EXPECT_TRUE(std::isinf(reading.smallest_catch));
  }
}

TEST(Adjust, GivesEqualStandardizedResidualsWhenOneReadingIsSpare) {
  std::mt19937 random(kSeed + 6);
  Network network = figures::polygon(4, 3.0);
  figures::pull(network, figures::all_pairs(4), figures::planned_places(network), 0.002, random);
  const Adjustment result = adjust(network);
  EXPECT_EQ(result.redundancy, 1);
  for (const AdjustedReading& reading : result.readings_out)
    EXPECT_NEAR(std::abs(reading.standardized), std::sqrt(result.chi_square), 1e-6);
}

TEST(Adjust, FailsTheTestOfTheSetWhenAReadingIsInchesOff) {
  std::mt19937 random(kSeed + 7);
  Network network = figures::polygon(6, 3.0);
  figures::pull(network, figures::all_pairs(6), figures::planned_places(network), 0.002, random);
  EXPECT_TRUE(adjust(network).passed);
  network.observations[4].corrected += 0.0508;
  const Adjustment result = adjust(network);
  EXPECT_FALSE(result.passed);
  EXPECT_NEAR(result.chi_square_limit, 12.5916, 0.0005);  // chi-square table, 6 degrees, 0.05
  EXPECT_NEAR(result.variance_factor, result.chi_square / 6.0, 1e-12);
}

TEST(Adjust, CallsReadingsOfAnotherPolygonWhatTheyAre) {
  Network network = figures::polygon(6, 3.0);
  const Network larger = figures::polygon(6, 6.0);
  figures::pull_exactly(network, figures::all_pairs(6), figures::planned_places(larger), 0.002);
  const Adjustment result = adjust(network);
  EXPECT_EQ(result.status, Status::did_not_settle);
  EXPECT_FALSE(result.passed);
  EXPECT_EQ(result.found[2], network.points[2].planned);
  EXPECT_FALSE(result.place_known[2]);
  EXPECT_THAT(told_in_english(result.remarks),
              ::testing::Contains(::testing::HasSubstr("may be of another job")));
}

TEST(Adjust, DoesNotSettleWhenReadingsPutTwoStakesAtOnePlace) {
  for (const int sides : {5, 8, 24}) {
    Network network = figures::polygon(sides, 3.0);
    auto places = figures::planned_places(network);
    places[1] = places[0];
    figures::pull_exactly(network, figures::all_pairs(network.corner_count), places, 0.002);
    network.observations[0].corrected = 1e-9;
    EXPECT_EQ(adjust(network).status, Status::did_not_settle) << sides << " sides";
  }
}

TEST(Adjust, StandsAReadingOfAnyLengthWithoutACrash) {
  for (const double length_m : {1e-6, 0.01, 40.0, 10000.0}) {
    Network network = figures::polygon(6, 3.0);
    figures::pull_exactly(network, figures::all_pairs(6), figures::planned_places(network), 0.002);
    network.observations[3].corrected = length_m;
    const Adjustment result = adjust(network);
    for (const base::Point& place : result.found)
      EXPECT_TRUE(std::isfinite(place.x_m) && std::isfinite(place.y_m)) << length_m;
    EXPECT_FALSE(result.passed) << length_m;
  }
}

TEST(Adjust, IsAtRestWhereASecondStartWouldLeaveIt) {
  // Starting from the places found instead of the plan changes nothing above 1e-11 m of shape.
  std::mt19937 random(kSeed + 8);
  Network network = figures::polygon(9, 4.0);
  const auto truth = figures::staked(network, 0.03, random);
  figures::pull(network, braced(9, random), truth, 0.002, random);
  const Adjustment first = adjust(network);
  Network again = network;
  for (std::size_t p = 0; p < again.points.size(); ++p) again.points[p].planned = first.found[p];
  const Adjustment second = adjust(again);
  for (std::size_t p = 0; p < again.points.size(); ++p)
    EXPECT_LT(base::distance_m(first.found[p], second.found[p]), 1e-11);
}

TEST(Adjust, KeepsTheWayTheCornersRun) {
  // A corner on two tapes fits on either side of the line between their ends; the planned side is
  // taken.
  std::mt19937 random(kSeed + 9);
  Network network = figures::polygon(6, 3.0);
  std::vector<Pair> pairs = figures::all_pairs(6);
  std::erase_if(pairs, [](const Pair& pair) {
    return (pair.first == 3 || pair.second == 3) && pair != Pair{2, 3} && pair != Pair{3, 4};
  });
  const auto truth = figures::staked(network, 0.02, random);
  figures::pull_exactly(network, pairs, truth, 0.002);
  const Adjustment result = adjust(network);
  ASSERT_EQ(result.status, Status::settled);
  EXPECT_LT(worst_distance_m(network, result.found, truth), 1e-10);
}

}  // namespace
}  // namespace stakewright::adjustment
