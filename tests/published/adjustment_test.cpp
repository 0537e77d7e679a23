// Adjustments of published figures.
#include "stakewright/adjustment/adjust.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <string>

#include "stakewright/adjustment/slips.hpp"

namespace stakewright::adjustment {
namespace {

/// One point that is asked, distances to points that are known, all of one standard deviation.
Network one_point(base::Point near, const std::vector<std::pair<std::string, base::Point>>& known,
                  const std::vector<double>& distances, double sd) {
  Network network;
  network.corner_count = 1;
  network.points.push_back({"U", Role::corner, near, false});
  network.datum = {0};
  network.instruments.emplace_back();
  for (std::size_t i = 0; i < known.size(); ++i) {
    network.points.push_back({known[i].first, Role::pin, known[i].second, true});
    network.observations.push_back({0, i + 1, 0, distances[i], distances[i], sd});
  }
  return network;
}

// C. D. Ghilani and P. R. Wolf, Adjustment Computations, chapter 14, trilateration of one point:
// inputs from the book's own worksheet, in feet; the adjusted figures computed from them elsewhere
// to 40 digits.  The book prints S0 = 0.10 ft, residuals -0.04, 0.08, -0.05 (from memory).
TEST(Trilateration, OfOnePointFromThreeStationsAsInGhilaniAndWolf) {
  const Network network =
      one_point({6861.35, 3727.59},
                {{"A", {865.40, 4527.15}}, {"B", {2432.55, 2047.25}}, {"C", {2865.22, 27.15}}},
                {6049.00, 4736.83, 5446.49}, 1.0);
  const Adjustment result = adjust(network);
  ASSERT_EQ(result.status, Status::settled);
  EXPECT_EQ(result.redundancy, 1);
  EXPECT_NEAR(result.found[0].x_m, 6861.3168, 0.00005);
  EXPECT_NEAR(result.found[0].y_m, 3727.8186, 0.00005);
  const std::array<double, 3> residuals = {-0.03737, 0.07679, -0.04737};
  const std::array<double, 3> redundancies = {0.146447, 0.618320, 0.235233};
  for (std::size_t r = 0; r < 3; ++r) {
    EXPECT_NEAR(result.readings_out[r].residual, residuals[r], 0.000005);
    EXPECT_NEAR(result.readings_out[r].redundancy, redundancies[r], 0.0000005);
    EXPECT_NEAR(std::abs(result.readings_out[r].standardized), 0.0977, 0.00005);
  }
  EXPECT_NEAR(std::sqrt(result.variance_factor), 0.09766, 0.000005);
  EXPECT_NEAR(result.chi_square, 0.00953735, 0.000000005);
  EXPECT_NEAR(result.covariance(0, 0), 0.630189, 0.0000005);
  EXPECT_NEAR(result.covariance(0, 1), -0.728354, 0.0000005);
  EXPECT_NEAR(result.covariance(1, 1), 2.494689, 0.0000005);
}

// A. Norrdine, An algebraic solution to the multilateration problem, IPIN 2012: six ranges to a
// target surveyed at (26.759, -1.342); P43 and P208 are published as too long by 0.12 m and
// 0.14 m.  The ranges are reduced to the level with the published heights (the target's is 1.13).
// The statistics were computed from these inputs elsewhere, with a standard deviation of 20 mm (our
// choice).
constexpr std::size_t kP43 = 3;
constexpr std::size_t kP208 = 4;

Network six_ranges(double off_p43 = 0.0, double off_p208 = 0.0) {
  const std::array<double, 6> heights = {1.47, 1.93, 1.20, 2.17, 1.77, 1.60};
  const std::array<double, 6> slant = {3.652, 7.036, 4.586, 9.960 - off_p43, 7.542 - off_p208,
                                       7.883};
  std::vector<double> level;
  for (std::size_t i = 0; i < 6; ++i)
    level.push_back(std::sqrt(slant[i] * slant[i] - (heights[i] - 1.13) * (heights[i] - 1.13)));
  return one_point({26.759, -1.342},
                   {{"P37", {27.297, -4.953}},
                    {"P31", {20.693, -4.849}},
                    {"P102", {22.590, 0.524}},
                    {"P43", {17.113, -3.003}},
                    {"P208", {22.554, 4.727}},
                    {"P101", {22.447, -7.880}}},
                   level, 0.020);
}

TEST(SixRanges, GiveThePublishedStatisticsWithTheBadOnesIn) {
  const Adjustment all = adjust(six_ranges());
  EXPECT_NEAR(all.found[0].x_m, 26.8271, 0.0001);
  EXPECT_NEAR(all.found[0].y_m, -1.3752, 0.0001);
  EXPECT_NEAR(all.chi_square, 39.2633, 0.01);
  EXPECT_EQ(all.redundancy, 4);
  EXPECT_FALSE(all.passed);
  const std::array<double, 6> redundancies = {.6384, .6852, .6741, .6909, .6475, .6639};
  const std::array<double, 6> standardized = {-1.724, 3.568, 3.519, -3.370, -4.053, -1.652};
  const std::array<double, 6> catches = {.1034, .0998, .1007, .0994, .1027, .1014};
  for (std::size_t r = 0; r < 6; ++r) {
    EXPECT_NEAR(all.readings_out[r].redundancy, redundancies[r], 0.0001);
    EXPECT_NEAR(all.readings_out[r].standardized, standardized[r], 0.003);
    EXPECT_NEAR(all.readings_out[r].smallest_catch, catches[r], 0.0001);
  }
}

TEST(SixRanges, ComeToTheSurveyedPlaceWithoutTheBadOnes) {
  const Adjustment without_p208 = adjust(six_ranges(), {kP208});
  EXPECT_NEAR(without_p208.found[0].x_m, 26.8084, 0.0001);
  EXPECT_NEAR(without_p208.found[0].y_m, -1.3450, 0.0001);
  EXPECT_NEAR(without_p208.readings_out[kP43].standardized, -4.267, 0.003);
  const Adjustment good = adjust(six_ranges(), {kP43, kP208});
  EXPECT_NEAR(good.found[0].x_m, 26.7724, 0.0001);
  EXPECT_NEAR(good.found[0].y_m, -1.3440, 0.0001);
  EXPECT_NEAR(good.chi_square, 4.639, 0.01);
  EXPECT_NEAR(base::distance_m(good.found[0], {26.759, -1.342}), 0.0135, 0.0002);
  const Adjustment mended = adjust(six_ranges(0.12, 0.14));
  EXPECT_NEAR(mended.found[0].x_m, 26.7641, 0.0001);
  EXPECT_NEAR(mended.found[0].y_m, -1.3394, 0.0001);
  EXPECT_NEAR(mended.chi_square, 5.431, 0.01);
  EXPECT_TRUE(mended.passed);
}

TEST(SixRanges, ShowBothPublishedSlipsTogetherAsTheLikeliestSet) {
  const Network network = six_ranges();
  const SlipTest test = weigh_slips(network, adjust(network), 0.02);
  EXPECT_NE(test.verdict, SlipVerdict::none);
  EXPECT_THAT(test.ranked.front().readings, ::testing::UnorderedElementsAre(kP43, kP208));
  for (std::size_t i = 0; i < 2; ++i) {
    const double published = test.ranked.front().readings[i] == kP43 ? 0.12 : 0.14;
    EXPECT_NEAR(test.ranked.front().slips[i], published, 0.03);
  }
  // With six ranges P31 and P102, both short, fit nearly as well; no honest test names the pair.
  EXPECT_EQ(test.verdict, SlipVerdict::not_separable);
  EXPECT_THAT(test.ranked[1].readings, ::testing::UnorderedElementsAre(1, 2));
}

TEST(SixRanges, ShowNoSlipOnceThePublishedOnesAreTakenOff) {
  const Network network = six_ranges(0.12, 0.14);
  EXPECT_EQ(weigh_slips(network, adjust(network), 0.02).verdict, SlipVerdict::none);
}

double angle_rad(base::Point at, base::Point from, base::Point to) {
  const base::Point a = from - at;
  const base::Point b = to - at;
  return std::acos(base::dot(a, b) / (base::norm_m(a) * base::norm_m(b)));
}

double degrees(int whole, int minutes, double seconds) {
  return (whole + minutes / 60.0 + seconds / 3600.0) * std::acos(-1.0) / 180.0;
}

// A three-sided figure as in J. P. La Putt, Elementary Surveying: B (N 9450.085, E 10150.022),
// AB 923.245, BC 517.328, AC 896.126; printed results A (10032.650, 10866.262),
// C (9936.999, 9975.255), angles 32°59'46.9" at A and 76°22'58.4" at C.
TEST(ThreeSides, GiveThePrintedAnglesAndPlaces) {
  Network network;
  network.corner_count = 2;
  network.instruments.emplace_back();
  // Started a meter off; B is known, and C bears from B as printed, so the datum is B and C's turn.
  network.points = {{"A", Role::corner, {10867.0, 10031.8}, false},
                    {"C", Role::corner, {9975.255, 9936.999}, false},
                    {"B", Role::pin, {10150.022, 9450.085}, true}};
  network.datum = {1};
  network.observations = {{0, 2, 0, 923.245, 923.245, 0.01},
                          {1, 2, 0, 517.328, 517.328, 0.01},
                          {0, 1, 0, 896.126, 896.126, 0.01}};
  const Adjustment result = adjust(network);
  ASSERT_EQ(result.status, Status::settled);
  const base::Point A = result.found[0];
  const base::Point C = result.found[1];
  const base::Point B = result.found[2];
  EXPECT_NEAR(A.x_m, 10866.262, 0.002);
  EXPECT_NEAR(A.y_m, 10032.650, 0.002);
  EXPECT_NEAR(C.x_m, 9975.255, 0.001);
  EXPECT_NEAR(C.y_m, 9936.999, 0.001);
  EXPECT_NEAR(angle_rad(A, B, C), degrees(32, 59, 46.9), degrees(0, 0, 0.5));
  EXPECT_NEAR(angle_rad(C, A, B), degrees(76, 22, 58.4), degrees(0, 0, 0.5));
}

}  // namespace
}  // namespace stakewright::adjustment
