#include <gtest/gtest.h>

#include <cmath>

#include "figures.hpp"
#include "stakewright/adjustment/adjust.hpp"

namespace stakewright::adjustment {
namespace {

constexpr unsigned kSeed = 7;

struct Movement {
  base::Point shift;  ///< mean, over some corners
  double turn = 0.0;  ///< square meters: sum of arm × movement
};

/// How the corners found lie to the planned ones, as a whole.
Movement movement(const Network& network, const std::vector<base::Point>& found,
                  const std::vector<std::size_t>& corners) {
  Movement result;
  base::Point middle;
  const double share = 1.0 / static_cast<double>(corners.size());
  for (const std::size_t corner : corners) middle = middle + share * found[corner];
  for (const std::size_t corner : corners) {
    const base::Point off = found[corner] - network.points[corner].planned;
    result.shift = result.shift + share * off;
    result.turn += base::dot(base::clockwise(found[corner] - middle), off);
  }
  return result;
}

double trace_over(const Adjustment& adjustment, const std::vector<std::size_t>& corners) {
  double trace = 0.0;
  for (const std::size_t c : corners)
    trace += adjustment.covariance(2 * c, 2 * c) + adjustment.covariance(2 * c + 1, 2 * c + 1);
  return trace;
}

Network hexagon_pulled(std::mt19937& random) {
  Network network = figures::polygon(6, 2.5, {3.0, -4.0}, 0.3);
  const auto truth = figures::staked(network, 0.02, random);
  figures::pull(network, figures::joined(figures::all_pairs(6), figures::radii(6)), truth, 0.002,
                random);
  return network;
}

void expect_same_shape(const Network& network, const Adjustment& a, const Adjustment& b) {
  for (const auto& [p, q] : figures::all_pairs(network.points.size()))
    EXPECT_NEAR(base::distance_m(a.found[p], a.found[q]), base::distance_m(b.found[p], b.found[q]),
                1e-11);
  for (std::size_t r = 0; r < network.observations.size(); ++r)
    EXPECT_NEAR(a.readings_out[r].residual, b.readings_out[r].residual, 1e-11);
}

TEST(Datum, KeepsMeanPlaceAndTurnOfAllCornersWhenNothingIsHeld) {
  std::mt19937 random(kSeed);
  const Network network = hexagon_pulled(random);
  const Movement all = movement(network, adjust(network).found, network.datum);
  EXPECT_LT(base::norm_m(all.shift), 1e-12);
  EXPECT_NEAR(all.turn, 0.0, 1e-11);
}

TEST(Datum, KeepsMeanPlaceAndTurnOfHeldStakesAndNeverBendsTheShapeToThem) {
  std::mt19937 random(kSeed + 1);
  const Network free = hexagon_pulled(random);
  Network held = free;
  held.datum = {1, 4};
  const Adjustment result = adjust(held);
  const Movement kept = movement(held, result.found, held.datum);
  EXPECT_LT(base::norm_m(kept.shift), 1e-12);
  EXPECT_NEAR(kept.turn, 0.0, 1e-11);
  // The held stakes were not set where planned: their distance is the measured one.
  EXPECT_GT(std::abs(base::distance_m(result.found[1], result.found[4]) - 5.0), 0.001);
  expect_same_shape(free, adjust(free), result);
}

TEST(Datum, MeetsOneHeldStakeAndKeepsTheTurnOfTheWholeAboutIt) {
  std::mt19937 random(kSeed + 2);
  const Network free = hexagon_pulled(random);
  Network held = free;
  held.datum = {2};
  const Adjustment result = adjust(held);
  EXPECT_LT(base::distance_m(result.found[2], held.points[2].planned), 1e-12);
  EXPECT_NEAR(result.covariance(4, 4), 0.0, 1e-15);
  double turn = 0.0;
  for (std::size_t p = 0; p < held.points.size(); ++p)
    turn += base::dot(base::clockwise(result.found[p] - result.found[2]),
                      result.found[p] - held.points[p].planned);
  EXPECT_NEAR(turn, 0.0, 1e-11);
  expect_same_shape(free, adjust(free), result);
}

TEST(Datum, GivesTheCornersThatCarryItTheSmallestTrace) {
  std::mt19937 random(kSeed + 3);
  Network network = hexagon_pulled(random);
  const std::vector<std::vector<std::size_t>> sets = {
      {0, 1, 2, 3, 4, 5}, {0, 3}, {1, 2, 5}, {4, 5}};
  std::vector<Adjustment> results;
  for (const auto& set : sets) {
    network.datum = set;
    results.push_back(adjust(network));
  }
  for (std::size_t own = 0; own < sets.size(); ++own)
    for (std::size_t other = 0; other < sets.size(); ++other)
      EXPECT_LE(trace_over(results[own], sets[own]), trace_over(results[other], sets[own]) + 1e-15);
}

TEST(Datum, LetsTheCovarianceOfEveryLengthAlone) {
  std::mt19937 random(kSeed + 4);
  Network network = hexagon_pulled(random);
  const Adjustment free = adjust(network);
  network.datum = {0, 1};
  const Adjustment held = adjust(network);
  const auto variance = [&](const Adjustment& result, std::size_t p, std::size_t q) {
    const base::Point u = (1.0 / base::distance_m(result.found[p], result.found[q])) *
                          (result.found[q] - result.found[p]);
    const std::array<std::pair<std::size_t, double>, 4> parts = {
        std::pair{2 * p, -u.x_m}, {2 * p + 1, -u.y_m}, {2 * q, u.x_m}, {2 * q + 1, u.y_m}};
    double sum = 0.0;
    for (const auto& [i, a] : parts)
      for (const auto& [j, b] : parts) sum += a * b * result.covariance(i, j);
    return sum;
  };
  for (const auto& [p, q] : figures::all_pairs(network.points.size()))
    EXPECT_NEAR(variance(free, p, q) / variance(held, p, q), 1.0, 1e-8);
}

/// A hexagon and its pins; `tied`: how many pins tape all six corners.
Network with_pins(std::size_t tied, const std::vector<base::Point>& off) {
  layout::Plan plan;
  plan.polygon = {6, 2.5};
  plan.pins = {{"P1", {-5.0, -4.0}}, {"P2", {6.0, -4.5}}, {"P3", {0.0, 7.0}}};
  readings::Instrument tape;
  tape.name = "tape";
  tape.constant_m = 0.002;
  Network result = network(plan, {}, {tape});
  auto truth = figures::planned_places(result);
  for (std::size_t p = 0; p < 6; ++p) truth[p] = truth[p] + off[p];
  std::vector<figures::Pair> pairs = figures::all_pairs(6);
  for (std::size_t pin = 0; pin < tied; ++pin)
    for (std::size_t corner = 0; corner < 6; ++corner) pairs.emplace_back(7 + pin, corner);
  figures::pull_exactly(result, pairs, truth, 0.002);
  return result;
}

std::vector<base::Point> shifted_and_bent() {
  return {{0.06, 0.02}, {0.05, 0.03}, {0.05, 0.01}, {0.04, 0.02}, {0.05, 0.02}, {0.07, 0.03}};
}

TEST(Datum, ComesFromTwoPinsWhenTheyAreTiedIn) {
  const auto off = shifted_and_bent();
  const Network network = with_pins(2, off);
  const Adjustment result = adjust(network);
  ASSERT_EQ(result.status, Status::settled);
  EXPECT_EQ(result.unknowns, 12);
  for (std::size_t corner = 0; corner < 6; ++corner)
    EXPECT_LT(base::distance_m(result.found[corner], network.points[corner].planned + off[corner]),
              1e-10);
  for (std::size_t i = 14; i < 20; ++i) EXPECT_EQ(result.covariance(i, i), 0.0);
  EXPECT_TRUE(result.place_known[9]);
}

TEST(Datum, ComesFromOnePinAndTheTurnOfTheCorners) {
  const Network network = with_pins(1, shifted_and_bent());
  const Adjustment result = adjust(network);
  ASSERT_EQ(result.status, Status::settled);
  EXPECT_EQ(result.unknowns, 11);
  double turn = 0.0;
  const base::Point pin = network.points[7].planned;
  for (std::size_t corner = 0; corner < 6; ++corner)
    turn += base::dot(base::clockwise(result.found[corner] - pin),
                      result.found[corner] - network.points[corner].planned);
  EXPECT_NEAR(turn, 0.0, 1e-9);
  for (const AdjustedReading& reading : result.readings_out)
    EXPECT_NEAR(reading.residual, 0.0, 1e-11);
}

TEST(Datum, TakesFromASingleTapeToAPinWhatItGivesAndNoMore) {
  const auto off = shifted_and_bent();
  Network network = with_pins(0, off);
  auto truth = figures::planned_places(network);
  for (std::size_t p = 0; p < 6; ++p) truth[p] = truth[p] + off[p];
  const Adjustment before = adjust(network);
  figures::pull_exactly(network, {{7, 0}}, truth, 0.002);
  const Adjustment one = adjust(network);
  ASSERT_EQ(one.status, Status::settled);
  EXPECT_EQ(one.unknowns, before.unknowns + 1);
  EXPECT_EQ(one.redundancy, before.redundancy);
  EXPECT_EQ(one.readings_out.back().redundancy, 0.0);
  EXPECT_NEAR(base::distance_m(one.found[0], network.points[7].planned),
              network.observations.back().corrected, 1e-11);
  figures::pull_exactly(network, {{8, 1}}, truth, 0.002);
  const Adjustment two = adjust(network);
  ASSERT_EQ(two.status, Status::settled);
  EXPECT_EQ(two.unknowns, before.unknowns + 2);
  for (const auto& [p, q] : figures::all_pairs(6))
    EXPECT_NEAR(base::distance_m(two.found[p], two.found[q]),
                base::distance_m(before.found[p], before.found[q]), 1e-10);
}

}  // namespace
}  // namespace stakewright::adjustment
