#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numeric>

#include "figures.hpp"
#include "stakewright/adjustment/adjust.hpp"

namespace stakewright::adjustment {
namespace {

constexpr unsigned kSeed = 4;

TEST(ExcludedReadings, ChangeNothingAndArePredicted) {
  std::mt19937 random(kSeed);
  Network network = figures::polygon(6, 3.0);
  const auto truth = figures::staked(network, 0.01, random);
  figures::pull(network, figures::all_pairs(6), truth, 0.002, random);
  Network without = network;
  without.observations.erase(without.observations.begin() + 7);
  network.observations[7].corrected += 0.5;
  const Adjustment result = adjust(network, {7});
  const Adjustment expected = adjust(without);
  EXPECT_EQ(result.readings, expected.readings);
  EXPECT_NEAR(result.chi_square, expected.chi_square, 1e-9);
  for (std::size_t p = 0; p < 6; ++p)
    EXPECT_LT(base::distance_m(result.found[p], expected.found[p]), 1e-12);

  const readings::Observation& left_out = network.observations[7];
  const AdjustedReading& predicted = result.readings_out[7];
  EXPECT_TRUE(predicted.excluded);
  EXPECT_FALSE(predicted.used);
  const double distance =
      base::distance_m(expected.found[left_out.from], expected.found[left_out.to]);
  EXPECT_NEAR(predicted.adjusted, distance, 1e-11);
  EXPECT_NEAR(predicted.residual, distance - left_out.corrected, 1e-11);
  // Its standard deviation: of the reading and of the distance found, added as squares.
  const base::Point u =
      (1.0 / distance) * (expected.found[left_out.to] - expected.found[left_out.from]);
  const std::array<std::pair<std::size_t, double>, 4> parts = {std::pair{2 * left_out.from, -u.x_m},
                                                               {2 * left_out.from + 1, -u.y_m},
                                                               {2 * left_out.to, u.x_m},
                                                               {2 * left_out.to + 1, u.y_m}};
  double variance = 0.002 * 0.002;
  for (const auto& [i, a] : parts)
    for (const auto& [j, b] : parts) variance += a * b * expected.covariance(i, j);
  EXPECT_NEAR(predicted.standardized, predicted.residual / std::sqrt(variance), 1e-6);
  EXPECT_EQ(predicted.redundancy, 1.0);
  EXPECT_NEAR(predicted.smallest_catch, 4.13215 * std::sqrt(variance), 1e-7);
}

TEST(ExcludedReadings, AreStandardizedAsTheyWereWhenTheyTookPart) {
  // Leaving a reading out and predicting it gives the same standardized residual as keeping it
  // (deletion formula of regression diagnostics; R. D. Cook and S. Weisberg 1982, from memory).
  std::mt19937 random(kSeed + 1);
  Network network = figures::polygon(7, 3.0);
  figures::pull(network, figures::all_pairs(7), figures::planned_places(network), 0.002, random);
  const Adjustment all = adjust(network);
  for (std::size_t r = 0; r < network.observations.size(); ++r) {
    const double predicted = adjust(network, {r}).readings_out[r].standardized;
    EXPECT_NEAR(predicted, all.readings_out[r].standardized, 2e-3);
  }
}

TEST(ExcludedReadings, ThatHeldACornerAloneLeaveItLoose) {
  Network network = figures::polygon(5, 3.0);
  figures::pull_exactly(network, figures::all_pairs(5), figures::planned_places(network), 0.002);
  std::vector<std::size_t> excluded;
  for (std::size_t r = 0; r < network.observations.size(); ++r)
    if (network.observations[r].from == 0 || network.observations[r].to == 0) excluded.push_back(r);
  const Adjustment result = adjust(network, excluded);
  EXPECT_EQ(result.status, Status::shape_not_fixed);
  ASSERT_EQ(result.loose.size(), 1U);
  EXPECT_EQ(result.loose[0].point, 0U);
  EXPECT_EQ(result.loose[0].would_fix.size(), 2U);  // an excluded pull may be named again
  const AdjustedReading& reading = result.readings_out[figures::reading(network, "A", "C")];
  EXPECT_TRUE(reading.excluded);
  EXPECT_EQ(reading.redundancy, 0.0);
}

TEST(ExcludedReadings, OfAnInstrumentUsedForNothingElseAreHeldAgainstItsPrior) {
  Network network = figures::polygon(5, 3.0);
  figures::pull_exactly(network, figures::all_pairs(5), figures::planned_places(network), 0.002);
  readings::Instrument worn = network.instruments[0];
  worn.zero_m = 0.02;
  network.instruments.push_back(worn);
  readings::Observation pull = network.observations[0];
  pull.instrument = 1;
  pull.corrected += 0.02;
  network.observations.push_back(pull);
  const Adjustment result = adjust(network, {network.observations.size() - 1});
  EXPECT_NEAR(std::abs(result.readings_out.back().standardized), 1.0, 0.02);
}

TEST(ExcludedReadings, AllOfThemLeaveNoReadings) {
  Network network = figures::polygon(5, 3.0);
  figures::pull_exactly(network, figures::all_pairs(5), figures::planned_places(network), 0.002);
  std::vector<std::size_t> all(network.observations.size());
  std::iota(all.begin(), all.end(), std::size_t{0});
  const Adjustment result = adjust(network, all);
  EXPECT_EQ(result.status, Status::no_readings);
  EXPECT_EQ(result.readings, 0);
}

}  // namespace
}  // namespace stakewright::adjustment
