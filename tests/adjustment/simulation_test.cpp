// What the statistics promise, counted over simulated rounds of readings.
#include <gtest/gtest.h>

#include <cmath>

#include "figures.hpp"
#include "stakewright/adjustment/adjust.hpp"

namespace stakewright::adjustment {
namespace {

constexpr unsigned kSeed = 2718;
constexpr int kRounds = 800;

Network simulated(std::mt19937& random, std::vector<base::Point>& truth) {
  Network network = figures::polygon(6, 3.0);
  network.instruments[0].zero_m = 0.001;
  truth = figures::staked(network, 0.005, random);
  figures::pull(network, figures::joined(figures::all_pairs(6), figures::radii(6)), truth, 0.002,
                random);
  std::normal_distribution<double> hook(0.0, 0.001);
  const double zero_m = hook(random);
  for (readings::Observation& observation : network.observations) observation.corrected += zero_m;
  return network;
}

TEST(Simulation, StandardizedResidualsAreStandardNormal) {
  std::mt19937 random(kSeed);
  std::vector<base::Point> truth;
  double count = 0.0;
  double sum = 0.0;
  double squares = 0.0;
  double beyond_1_96 = 0.0;
  double beyond_3_29 = 0.0;
  for (int round = 0; round < kRounds; ++round) {
    const Adjustment result = adjust(simulated(random, truth));
    for (const AdjustedReading& reading : result.readings_out) {
      ++count;
      sum += reading.standardized;
      squares += reading.standardized * reading.standardized;
      if (std::abs(reading.standardized) > 1.96) ++beyond_1_96;
      if (std::abs(reading.standardized) > 3.2905) ++beyond_3_29;
    }
  }
  EXPECT_NEAR(sum / count, 0.0, 0.03) << "seed " << kSeed;
  EXPECT_NEAR(squares / count, 1.0, 0.04) << "seed " << kSeed;
  EXPECT_NEAR(beyond_1_96 / count, 0.05, 0.006) << "seed " << kSeed;
  EXPECT_NEAR(beyond_3_29 / count, 0.001, 0.0008) << "seed " << kSeed;
}

TEST(Simulation, GoodSetsFailTheChiSquareTestFiveTimesInAHundred) {
  std::mt19937 random(kSeed + 1);
  std::vector<base::Point> truth;
  double failed = 0.0;
  double sum = 0.0;
  double redundancy = 0.0;
  for (int round = 0; round < kRounds; ++round) {
    const Adjustment result = adjust(simulated(random, truth));
    if (!result.passed) ++failed;
    sum += result.chi_square;
    redundancy = result.redundancy;
  }
  EXPECT_NEAR(failed / kRounds, 0.05, 0.025) << "seed " << kSeed + 1;
  EXPECT_NEAR(sum / kRounds / redundancy, 1.0, 0.05) << "seed " << kSeed + 1;
}

TEST(Simulation, DistancesFoundAreOffByWhatTheCovarianceSays) {
  std::mt19937 random(kSeed + 2);
  std::vector<base::Point> truth;
  double squares = 0.0;
  double count = 0.0;
  for (int round = 0; round < kRounds; ++round) {
    const Adjustment result = adjust(simulated(random, truth));
    for (const auto& [p, q] : figures::all_pairs(7)) {
      const double length = base::distance_m(result.found[p], result.found[q]);
      const base::Point u = (1.0 / length) * (result.found[q] - result.found[p]);
      const std::array<std::pair<std::size_t, double>, 4> parts = {
          std::pair{2 * p, -u.x_m}, {2 * p + 1, -u.y_m}, {2 * q, u.x_m}, {2 * q + 1, u.y_m}};
      double variance = 0.0;
      for (const auto& [i, a] : parts)
        for (const auto& [j, b] : parts) variance += a * b * result.covariance(i, j);
      squares += std::pow(length - base::distance_m(truth[p], truth[q]), 2) / variance;
      ++count;
    }
  }
  EXPECT_NEAR(squares / count, 1.0, 0.06) << "seed " << kSeed + 2;
}

TEST(Simulation, AnErrorOfTheSmallestCatchIsCalledOutEightTimesInTen) {
  std::mt19937 random(kSeed + 3);
  std::vector<base::Point> truth;
  double caught = 0.0;
  for (int round = 0; round < kRounds; ++round) {
    Network network = simulated(random, truth);
    const std::size_t r = static_cast<std::size_t>(round) % network.observations.size();
    network.observations[r].corrected += adjust(network).readings_out[r].smallest_catch;
    if (std::abs(adjust(network).readings_out[r].standardized) > 3.2905) ++caught;
  }
  EXPECT_NEAR(caught / kRounds, 0.80, 0.045) << "seed " << kSeed + 3;
}

}  // namespace
}  // namespace stakewright::adjustment
