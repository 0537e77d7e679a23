#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "figures.hpp"
#include "refusal.hpp"
#include "stakewright/adjustment/adjust.hpp"

namespace stakewright::adjustment {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;

constexpr unsigned kSeed = 31;

double length_sd_m(const Adjustment& result, std::size_t p, std::size_t q) {
  const base::Point u = (1.0 / base::distance_m(result.found[p], result.found[q])) *
                        (result.found[q] - result.found[p]);
  const std::array<std::pair<std::size_t, double>, 4> parts = {
      std::pair{2 * p, -u.x_m}, {2 * p + 1, -u.y_m}, {2 * q, u.x_m}, {2 * q + 1, u.y_m}};
  double sum = 0.0;
  for (const auto& [i, a] : parts)
    for (const auto& [j, b] : parts) sum += a * b * result.covariance(i, j);
  return std::sqrt(sum);
}

Network octagon(double scale, double zero_m) {
  Network network = figures::polygon(8, 4.0);
  network.instruments[0].name = "blue tape";
  network.instruments[0].scale = scale;
  network.instruments[0].zero_m = zero_m;
  return network;
}

TEST(InstrumentErrors, CarryAnUnseenScaleIntoEveryLength) {
  Network without = octagon(0.0, 0.0);
  Network network = octagon(5e-4, 0.0);
  const auto truth = figures::planned_places(network);
  figures::pull_exactly(without, figures::all_pairs(8), truth, 0.001);
  figures::pull_exactly(network, figures::all_pairs(8), truth, 0.001);
  const Adjustment a = adjust(without);
  const Adjustment b = adjust(network);
  ASSERT_EQ(b.instruments.size(), 1U);
  // A tape that is long throughout makes the same figure, only smaller: nothing shows.
  EXPECT_NEAR(b.instruments[0].scale_sd, 5e-4, 1e-9);
  EXPECT_THAT(told_in_english(b.remarks), Contains(HasSubstr("scale of blue tape cannot be seen")));
  EXPECT_TRUE(a.remarks.empty());
  for (const auto& [p, q] : figures::all_pairs(8)) {
    const double length = base::distance_m(truth[p], truth[q]);
    EXPECT_NEAR(length_sd_m(b, p, q), std::hypot(length_sd_m(a, p, q), 5e-4 * length), 1e-8);
  }
  EXPECT_EQ(a.redundancy, b.redundancy);
}

TEST(InstrumentErrors, FindTheScaleOfATapeAgainstALaser) {
  Network network = octagon(1e-3, 0.0);
  readings::Instrument laser;
  laser.name = "laser";
  network.instruments.push_back(laser);
  const auto truth = figures::planned_places(network);
  figures::pull_exactly(network, figures::all_pairs(8), truth, 0.0005);
  for (readings::Observation& observation : network.observations) observation.corrected *= 1.0008;
  const std::size_t taped = network.observations.size();
  figures::pull_exactly(network, figures::all_pairs(8), truth, 0.0005);
  for (std::size_t r = taped; r < network.observations.size(); ++r)
    network.observations[r].instrument = 1;
  const Adjustment result = adjust(network);
  ASSERT_EQ(result.instruments.size(), 1U);
  EXPECT_NEAR(result.instruments[0].scale, 8e-4, 1e-5);
  EXPECT_LT(result.instruments[0].scale_sd, 5e-5);
  EXPECT_TRUE(result.remarks.empty());
}

TEST(InstrumentErrors, FindAWornHookFromLongAndShortPulls) {
  Network network = octagon(0.0, 0.01);
  const auto truth = figures::planned_places(network);
  figures::pull_exactly(network, figures::joined(figures::all_pairs(8), figures::radii(8)), truth,
                        0.0005);
  for (readings::Observation& observation : network.observations) observation.corrected += 0.006;
  const Adjustment result = adjust(network);
  ASSERT_EQ(result.instruments.size(), 1U);
  EXPECT_NEAR(result.instruments[0].zero_m, 0.006, 2.0 * result.instruments[0].zero_sd_m);
  EXPECT_LT(result.instruments[0].zero_sd_m, 0.002);
  EXPECT_EQ(result.instruments[0].scale_sd, 0.0);
}

TEST(InstrumentErrors, AreOnlyAskedOfInstrumentsThatWereUsed) {
  std::mt19937 random(kSeed);
  Network network = octagon(2e-4, 1e-3);
  readings::Instrument spare = network.instruments[0];
  spare.name = "spare tape";
  network.instruments.push_back(spare);
  figures::pull(network, figures::all_pairs(8), figures::planned_places(network), 0.002, random);
  const Adjustment result = adjust(network);
  EXPECT_EQ(result.instruments.size(), 1U);
  EXPECT_EQ(result.unknowns, 13 + 2);
  EXPECT_EQ(result.redundancy, 28 - 13);
}

}  // namespace
}  // namespace stakewright::adjustment
