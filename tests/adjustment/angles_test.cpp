// Angles adjusted together with lengths.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <numeric>

#include "figures.hpp"
#include "stakewright/adjustment/adjust.hpp"
#include "stakewright/adjustment/slips.hpp"
#include "stakewright/base/angle.hpp"

namespace stakewright::adjustment {
namespace {

using base::kDegree_rad;
using figures::Turn;

constexpr unsigned kSeed = 404;
constexpr double kMinute_rad = kDegree_rad / 60.0;

double dms_rad(double degrees, double minutes, double seconds) {
  return (degrees + minutes / 60.0 + seconds / 3600.0) * kDegree_rad;
}

std::vector<std::size_t> loose_points(const Adjustment& adjustment) {
  std::vector<std::size_t> points;
  for (const Loose& loose : adjustment.loose) points.push_back(loose.point);
  return points;
}

// A three-side figure of J. P. La Putt, Elementary Surveying (coordinates, sides and angles as
// printed): corners A, B, C in north and east, AB = 923.245, BC = 517.328, CA = 896.126,
// angle at A 32°59'46.9", at C 76°22'58.4".
struct ThreeSides {
  Network network;
  ThreeSides() {
    network.points = {{"A", Role::corner, {10866.262, 10032.650}, false},
                      {"B", Role::corner, {10150.022, 9450.085}, false},
                      {"C", Role::corner, {9975.255, 9936.999}, false}};
    network.corner_count = 3;
    network.datum = {0, 1, 2};
    readings::Instrument any;
    any.name = "tape";
    network.instruments = {any};
    network.observations = {{0, 1, 0, 923.245, 923.245, 0.01, {}},
                            {1, 2, 0, dms_rad(32, 59, 46.9), dms_rad(32, 59, 46.9), 1e-5, 0},
                            {0, 1, 0, dms_rad(76, 22, 58.4), dms_rad(76, 22, 58.4), 1e-5, 2}};
  }
};

TEST(Angles, OfATriangleWithOneSideGiveThePublishedSides) {
  const ThreeSides figure;
  const Adjustment result = adjust(figure.network);
  ASSERT_EQ(result.status, Status::settled);
  EXPECT_EQ(result.redundancy, 0);
  EXPECT_NEAR(base::distance_m(result.found[1], result.found[2]), 517.328, 0.001);
  EXPECT_NEAR(base::distance_m(result.found[2], result.found[0]), 896.126, 0.001);
}

TEST(Angles, OfATriangleArePredictedFromItsPublishedSides) {
  ThreeSides figure;
  figure.network.observations.push_back({1, 2, 0, 517.328, 517.328, 0.01, {}});
  figure.network.observations.push_back({2, 0, 0, 896.126, 896.126, 0.01, {}});
  const Adjustment result = adjust(figure.network, {false, true, true, false, false});
  ASSERT_EQ(result.status, Status::settled);
  const double tenth_of_a_second = dms_rad(0, 0, 0.1);
  EXPECT_NEAR(result.readings_out[1].adjusted, dms_rad(32, 59, 46.9), 4.0 * tenth_of_a_second);
  EXPECT_NEAR(result.readings_out[2].adjusted, dms_rad(76, 22, 58.4), 4.0 * tenth_of_a_second);
}

// The angles of a polygon of n sides add to (n − 2)·180°: Euclid, Elements I.32 and its corollary.
TEST(Angles, OfAPolygonAddUpOnceAdjusted) {
  std::mt19937 random(kSeed);
  for (int round = 0; round < 20; ++round) {
    Network network = figures::random_polygon(random);
    const std::size_t n = network.corner_count;
    const auto truth = figures::staked(network, 0.03, random);
    figures::turn(network, figures::interior_angles(n), truth, kMinute_rad, random);
    figures::pull(network, figures::skips(n, 1), truth, 0.002, random);
    const Adjustment result = adjust(network);
    ASSERT_EQ(result.status, Status::settled) << n;
    double sum = 0.0;
    for (std::size_t r = 0; r < n; ++r) sum += result.readings_out[r].adjusted;
    EXPECT_NEAR(sum, static_cast<double>(n - 2) * std::numbers::pi, 1e-11) << n;
    EXPECT_EQ(result.redundancy, 3) << n;  // n angles and n sides less 2n − 3
  }
}

// Equal angles of a triangle share its misclosure alike, whatever their sizes: any surveying text
// (from memory).  Each then shows a third of its own error.
TEST(Angles, OfATriangleShareItsMisclosureAlike) {
  ThreeSides figure;
  const double angle_b = std::numbers::pi - dms_rad(32, 59, 46.9) - dms_rad(76, 22, 58.4);
  const double misclosure = dms_rad(0, 0, 12);
  figure.network.observations.push_back(
      {2, 0, 0, angle_b + misclosure, angle_b + misclosure, 1e-5, 1});
  const Adjustment result = adjust(figure.network);
  ASSERT_EQ(result.redundancy, 1);
  for (const std::size_t r : {1U, 2U, 3U}) {
    const AdjustedReading& reading = result.readings_out[r];
    EXPECT_NEAR(reading.residual, -misclosure / 3.0, dms_rad(0, 0, 0.001)) << r;
    EXPECT_NEAR(reading.redundancy, 1.0 / 3.0, 1e-6) << r;
    EXPECT_NEAR(reading.smallest_catch, 4.13215 * 1e-5 * std::sqrt(3.0), 1e-9) << r;
  }
  EXPECT_NEAR(result.readings_out[0].redundancy, 0.0, 1e-9);
  EXPECT_TRUE(std::isinf(result.readings_out[0].smallest_catch));
}

// Angles round a point are corrected alike until they close to 360 degrees: any surveying text
// (from memory).  Five radii and five angles at the pin leave just that one condition.
TEST(Angles, RoundAPointShareTheHorizonsMisclosureAlike) {
  Network network = figures::polygon(5, 3.0);
  const auto truth = figures::planned_places(network);
  figures::pull_exactly(network, figures::radii(5), truth, 0.002);
  figures::turn_exactly(network, figures::angles_at_the_pin(5), truth, 4e-4);
  network.observations[7].corrected += 5.0 * kMinute_rad;
  const Adjustment result = adjust(network);
  ASSERT_EQ(result.redundancy, 1);
  for (std::size_t r = 5; r < 10; ++r) {
    EXPECT_NEAR(result.readings_out[r].residual, -kMinute_rad, 1e-9) << r;
    EXPECT_NEAR(result.readings_out[r].redundancy, 0.2, 1e-9) << r;
  }
  for (std::size_t r = 0; r < 5; ++r) EXPECT_NEAR(result.readings_out[r].residual, 0.0, 1e-9) << r;
}

// Three-point resection by Tienstra's formula (from memory): with P within the triangle, the
// weights are 1 / (cot A − cot α), α the angle at P between the other two.
TEST(Angles, AtAPointBetweenThreePinsPlaceItAsTienstrasFormulaDoes) {
  layout::Plan plan;
  plan.polygon = {4, 2.0};
  plan.pins = {{"P1", {-9.0, -7.0}}, {"P2", {1.0, 11.0}}, {"P3", {10.0, -6.0}}};
  Network site = network(plan, {}, {readings::Instrument{}});
  const std::vector<base::Point> pins = {{-9.0, -7.0}, {1.0, 11.0}, {10.0, -6.0}};
  const std::array<double, 3> at_p = {dms_rad(131, 10, 0), dms_rad(102, 40, 0),
                                      dms_rad(126, 10, 0)};
  double sum = 0.0;
  base::Point expected;
  for (std::size_t i = 0; i < 3; ++i) {
    const base::Point u = pins[(i + 1) % 3] - pins[i];
    const base::Point v = pins[(i + 2) % 3] - pins[i];
    const double cot_corner = base::dot(u, v) / std::abs(u.x_m * v.y_m - u.y_m * v.x_m);
    const double weight = 1.0 / (cot_corner - 1.0 / std::tan(at_p[i]));
    expected = expected + weight * pins[i];
    sum += weight;
  }
  expected = (1.0 / sum) * expected;
  const std::size_t p1 = figures::point(site, "P1");
  const std::size_t o = site.corner_count;
  // Clockwise P1 to P2 is opposite P3, and so on.
  site.observations = {{p1, p1 + 1, 0, at_p[2], at_p[2], 3e-4, o},
                       {p1 + 1, p1 + 2, 0, at_p[0], at_p[0], 3e-4, o}};
  for (std::size_t corner = 0; corner < 4; ++corner)
    for (const std::size_t pin : {p1, p1 + 1}) {
      const double length = base::distance_m(site.points[corner].planned, site.points[pin].planned);
      site.observations.push_back({corner, pin, 0, length, length, 0.002, {}});
    }
  const Adjustment result = adjust(site);
  ASSERT_EQ(result.status, Status::settled);
  ASSERT_TRUE(result.place_known[o]);
  EXPECT_NEAR(result.found[o].x_m, expected.x_m, 1e-9);
  EXPECT_NEAR(result.found[o].y_m, expected.y_m, 1e-9);
}

TEST(Angles, AloneLeaveTheScaleLooseAndOneTapeFixesIt) {
  for (const int sides : {3, 5, 8, 16}) {
    Network network = figures::polygon(sides, 3.0, {1.0, 2.0}, 0.2);
    const std::size_t n = network.corner_count;
    const auto truth = figures::planned_places(network);
    figures::turn_exactly(network, figures::interior_angles(n), truth, 1e-4);
    figures::turn_exactly(network, figures::angles_at_the_pin(n), truth, 1e-4);
    // Interior angles and angles at the pin are 2n, of which two are sums of the others, and one
    // more condition closes the figure round the pin.
    for (std::size_t corner = 0; corner < n; ++corner)
      figures::turn_exactly(network, {{corner, (corner + 1) % n, n}}, truth, 1e-4);
    const Adjustment result = adjust(network);
    EXPECT_EQ(result.status, Status::shape_not_fixed);
    EXPECT_EQ(loose_points(result).size(), n);
    for (const Loose& loose : result.loose) ASSERT_EQ(loose.would_fix.size(), 1U);
    const MissingTape tape = result.loose.front().would_fix.front();
    figures::pull_exactly(network, {{tape.from, tape.to}}, truth, 0.002);
    const Adjustment fixed = adjust(network);
    EXPECT_EQ(fixed.status, Status::settled) << sides;
    EXPECT_TRUE(fixed.place_known[n]);
  }
}

// The rank is a matter of the figure, not of the figures' standard deviations.
TEST(Angles, FixTheSameWhateverTheirStandardDeviationIsBesideTheTapes) {
  for (const double sd_rad : {1e-7, 1e-5, 1e-3, 0.05})
    for (const double sd_m : {1e-4, 3e-3, 0.1}) {
      Network network = figures::polygon(8, 3.0);
      const auto truth = figures::planned_places(network);
      figures::turn_exactly(network, figures::interior_angles(8), truth, sd_rad);
      figures::pull_exactly(network, figures::skips(8, 1), truth, sd_m);
      const Adjustment settled = adjust(network);
      EXPECT_EQ(settled.status, Status::settled) << sd_rad << " " << sd_m;
      EXPECT_EQ(settled.redundancy, 3) << sd_rad << " " << sd_m;
      network.observations.resize(8);
      EXPECT_EQ(adjust(network).status, Status::shape_not_fixed) << sd_rad;
    }
}

TEST(Angles, DoNotBendTheShapeWhenTheWholeIsTurnedAndShifted) {
  std::mt19937 random(kSeed + 1);
  Network network = figures::polygon(6, 3.2);
  auto truth = figures::staked(network, 0.02, random);
  figures::pull(network, figures::skips(6, 1), truth, 0.002, random);
  figures::turn(network, figures::interior_angles(6), truth, 4e-4, random);
  const Adjustment here = adjust(network);
  Network turned = figures::polygon(6, 3.2, {12.0, -7.0}, 2.5);
  turned.observations = network.observations;
  const Adjustment there = adjust(turned);
  ASSERT_EQ(there.status, Status::settled);
  for (std::size_t r = 0; r < network.observations.size(); ++r) {
    EXPECT_NEAR(here.readings_out[r].residual, there.readings_out[r].residual, 1e-10);
    EXPECT_NEAR(here.readings_out[r].redundancy, there.readings_out[r].redundancy, 1e-8);
  }
}

TEST(Angles, NearAWholeTurnHaveSmallResiduals) {
  Network network = figures::polygon(5, 3.0);
  const auto truth = figures::planned_places(network);
  figures::pull_exactly(network, figures::all_pairs(5), truth, 0.002);
  figures::pull_exactly(network, figures::radii(5), truth, 0.002);
  // A site pin in line behind O, seen from A: the angle from O to it is nought, or a whole turn.
  Network line = network;
  line.points.push_back({"P", Role::pin, truth[5] + 0.5 * (truth[5] - truth[0]), true});
  line.observations.push_back(
      {5, 6, 0, 2.0 * std::numbers::pi - 1e-4, 2.0 * std::numbers::pi - 1e-4, 4e-4, 0});
  const Adjustment result = adjust(line);
  ASSERT_EQ(result.status, Status::settled);
  EXPECT_LT(std::abs(result.readings_out.back().residual), 2e-4);
}

TEST(Angles, LeftOutArePredictedFromTheOthers) {
  std::mt19937 random(kSeed + 2);
  Network network = figures::polygon(6, 3.0);
  const auto truth = figures::planned_places(network);
  figures::pull(network, figures::all_pairs(6), truth, 0.002, random);
  figures::turn_exactly(network, {{1, 2, 0}}, truth, 4e-4);
  network.observations.back().corrected += 10.0 * kDegree_rad;
  const AdjustedReading predicted =
      adjust(network, {network.observations.size() - 1}).readings_out.back();
  EXPECT_TRUE(predicted.excluded);
  EXPECT_NEAR(predicted.residual, -10.0 * kDegree_rad, 10.0 * kMinute_rad);
  EXPECT_NEAR(predicted.adjusted, 120.0 * kDegree_rad, 10.0 * kMinute_rad);
  EXPECT_GT(std::abs(predicted.standardized), 50.0);
}

TEST(Angles, ThatAreMisreadAreNamed) {
  std::mt19937 random(kSeed + 3);
  int named = 0;
  constexpr int kRounds = 40;
  for (int round = 0; round < kRounds; ++round) {
    Network network = figures::polygon(8, 3.2);
    const auto truth = figures::staked(network, 0.01, random);
    figures::pull(network, figures::joined(figures::skips(8, 1), figures::skips(8, 3)), truth,
                  0.002, random);
    figures::turn(network, figures::interior_angles(8), truth, 4e-4, random);
    const std::size_t bad = 16 + static_cast<std::size_t>(round) % 8;
    network.observations[bad].corrected += (round % 2 == 0 ? 1.0 : -1.0) * kDegree_rad;
    const Adjustment all = adjust(network);
    const SlipTest test = weigh_slips(network, all, 0.02);
    EXPECT_NE(test.verdict, SlipVerdict::none) << round;
    if (test.verdict == SlipVerdict::named) {
      EXPECT_THAT(test.excluded, testing::ElementsAre(bad)) << round;
      EXPECT_NEAR(std::abs(test.ranked.front().slips.front()), kDegree_rad, 8.0 * kMinute_rad);
      ++named;
    }
  }
  EXPECT_GE(named, kRounds * 9 / 10);
}

// Two-sided 1.96 and 3.2905: chances 0.05 and 0.001 of a standard normal (any table); 0.80 is the
// power that the smallest catch is defined by.
TEST(Angles, BesideTapesHaveStandardNormalResidualsAndAreCaughtEightTimesInTen) {
  std::mt19937 random(kSeed + 5);
  constexpr int kRounds = 600;
  double count = 0.0;
  double squares = 0.0;
  double beyond = 0.0;
  double caught = 0.0;
  for (int round = 0; round < kRounds; ++round) {
    Network network = figures::polygon(6, 3.2);
    const auto truth = figures::staked(network, 0.01, random);
    figures::pull(network, figures::skips(6, 1), truth, 0.002, random);
    figures::turn(network, figures::interior_angles(6), truth, 4e-4, random);
    figures::turn(network, figures::angles_at_the_pin(6), truth, 6e-4, random);
    const Adjustment good = adjust(network);
    for (const AdjustedReading& reading : good.readings_out) {
      ++count;
      squares += reading.standardized * reading.standardized;
      if (std::abs(reading.standardized) > 1.96) ++beyond;
    }
    const std::size_t bad = 6 + static_cast<std::size_t>(round) % 12;
    network.observations[bad].corrected += good.readings_out[bad].smallest_catch;
    if (std::abs(adjust(network).readings_out[bad].standardized) > 3.2905) ++caught;
  }
  EXPECT_NEAR(squares / count, 1.0, 0.04);
  EXPECT_NEAR(beyond / count, 0.05, 0.006);
  EXPECT_NEAR(caught / kRounds, 0.80, 0.05);
}

TEST(Angles, AddNoFalseAlarmsBesideTapes) {
  std::mt19937 random(kSeed + 4);
  int alarms = 0;
  for (int round = 0; round < 100; ++round) {
    Network network = figures::polygon(6, 3.2);
    const auto truth = figures::staked(network, 0.01, random);
    figures::pull(network, figures::skips(6, 1), truth, 0.002, random);
    figures::turn(network, figures::interior_angles(6), truth, 4e-4, random);
    figures::turn(network, figures::angles_at_the_pin(6), truth, 4e-4, random);
    const Adjustment result = adjust(network);
    if (weigh_slips(network, result, 0.02).verdict != SlipVerdict::none) ++alarms;
  }
  EXPECT_LE(alarms, 3);
}

}  // namespace
}  // namespace stakewright::adjustment
