#include "stakewright/placement/moves.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "site.hpp"

namespace stakewright::placement {
namespace {

using testing::IsEmpty;
using testing::SizeIs;

constexpr double kSetSd_m = 0.001;

// A hexagon with one stake an inch off, its places known to half a millimeter or so.
Survey one_stake_off(std::size_t corner, base::Point by) {
  std::mt19937 random(6);
  Survey survey = polygon_site(6, 3.0);
  scatter(survey, 0.0005, random);
  set_every_sd(survey, 0.0005);
  push(survey, corner, by);
  return survey;
}

TEST(Moves, BringTheStakeThatIsOutAndOnlyThat) {
  const Survey survey = one_stake_off(2, {0.025, 0.010});
  const Placement placement = fewest_moves(survey, base::Tolerance{});
  const auto result = moves(survey, placement, base::Tolerance{}, kSetSd_m);
  ASSERT_THAT(result, SizeIs(1));
  EXPECT_EQ(result[0].corner, 2U);
  EXPECT_NEAR(result[0].outward_m, -placement.corners[2].outward_m, 1e-15);
  EXPECT_NEAR(result[0].sideways_m, -placement.corners[2].sideways_m, 1e-15);
  EXPECT_NEAR(result[0].distance_m, std::hypot(0.025, 0.010), 0.002);
  EXPECT_GT(result[0].predicted_chance_in, 0.95);
}

// From the found place, outward and clockwise by what the move says: the wanted place.
TEST(Moves, MadeExactlyBringTheCornerIn) {
  const unsigned seed = 21;
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> bearing(0.0, 2.0 * std::numbers::pi);
  for (int trial = 0; trial < 50; ++trial) {
    const std::size_t n = 5 + static_cast<std::size_t>(trial % 6);
    Survey survey = polygon_site(n, 3.5);
    scatter(survey, 0.001, random);
    push(survey, random() % n, 0.03 * base::along(bearing(random)));
    const Placement placement = fewest_moves(survey, base::Tolerance{});
    const auto result = moves(survey, placement, base::Tolerance{}, 0.0);
    ASSERT_THAT(result, SizeIs(1)) << "seed " << seed << " trial " << trial;
    const Move& move = result[0];
    const base::Point center = laid(placement.rigid, survey.center);
    const base::Point radius = placement.corners[move.corner].wanted - center;
    const base::Point outward = (1.0 / base::norm_m(radius)) * radius;
    push(survey, move.corner,
         move.outward_m * outward + move.sideways_m * base::clockwise(outward));
    const Placement after = fewest_moves(survey, base::Tolerance{});
    EXPECT_THAT(corners_with(after, Verdict::in), SizeIs(n)) << "seed " << seed;
    EXPECT_EQ(move.predicted_chance_in, 1.0);
  }
}

// Where two circles round the holding stakes meet, on the side of the wanted place: worked from
// the two lengths alone.
base::Point where_tapes_meet(base::Point a, double from_a_m, base::Point b, double from_b_m,
                             base::Point near) {
  const double apart_m = base::distance_m(a, b);
  const double along_m =
      (from_a_m * from_a_m - from_b_m * from_b_m + apart_m * apart_m) / (2.0 * apart_m);
  const double height_m = std::sqrt(from_a_m * from_a_m - along_m * along_m);
  const base::Point direction = (1.0 / apart_m) * (b - a);
  const base::Point foot = a + along_m * direction;
  const base::Point one = foot + height_m * base::clockwise(direction);
  const base::Point other = foot + -height_m * base::clockwise(direction);
  return base::distance_m(one, near) < base::distance_m(other, near) ? one : other;
}

TEST(Moves, GiveTwoTapesFromStakesThatStayThatMeetAtTheWantedPlace) {
  const Survey survey = one_stake_off(4, {-0.02, 0.02});
  const Placement placement = fewest_moves(survey, base::Tolerance{});
  const auto result = moves(survey, placement, base::Tolerance{}, kSetSd_m);
  ASSERT_THAT(result, SizeIs(1));
  ASSERT_THAT(result[0].tapes, SizeIs(2));
  for (const MoveTape& tape : result[0].tapes) {
    EXPECT_THAT(placement.kept, testing::Contains(tape.from));
    EXPECT_NE(tape.from, 4U);
  }
  const base::Point wanted = placement.corners[4].wanted;
  const base::Point met =
      where_tapes_meet(survey.found[result[0].tapes[0].from], result[0].tapes[0].length_m,
                       survey.found[result[0].tapes[1].from], result[0].tapes[1].length_m, wanted);
  EXPECT_NEAR(met.x_m, wanted.x_m, 1e-9);
  EXPECT_NEAR(met.y_m, wanted.y_m, 1e-9);
}

// Inscribed angles (Euclid III.31): from a corner of a hexagon the two ends of a diameter are
// seen at a right angle.
TEST(Moves, ChooseTheSquarestCrossing) {
  Survey survey = polygon_site(6, 3.0);
  push(survey, 0, {0.03, 0.0});
  const auto result =
      moves(survey, fewest_moves(survey, base::Tolerance{}), base::Tolerance{}, kSetSd_m);
  ASSERT_THAT(result, SizeIs(1));
  EXPECT_NEAR(result[0].crossing_rad, std::numbers::pi / 2.0, 1e-6);
  const std::size_t a = result[0].tapes[0].from;
  const std::size_t b = result[0].tapes[1].from;
  EXPECT_EQ((b - a) % 6, 3U);  // opposite one another
}

TEST(Moves, HoldNoTapeAtAnUndecidedStakeWhileOthersServe) {
  Survey survey = polygon_site(6, 3.0);
  push(survey, 0, {0.03, 0.0});
  // The stakes opposite one another, B-E and C-F, would cross square; B and F are doubtful, and
  // the plan lies on others.
  survey.hold = {2, 3};
  for (const std::size_t doubtful : {1U, 5U}) {
    survey.covariance(2 * doubtful, 2 * doubtful) = 1e-4;
    survey.covariance(2 * doubtful + 1, 2 * doubtful + 1) = 1e-4;
  }
  const Placement placement = fewest_moves(survey, base::Tolerance{});
  ASSERT_EQ(placement.corners[1].verdict, Verdict::undecided);
  const auto result = moves(survey, placement, base::Tolerance{}, kSetSd_m);
  ASSERT_THAT(result, SizeIs(1));
  EXPECT_THAT((std::vector<std::size_t>{result[0].tapes[0].from, result[0].tapes[1].from}),
              testing::IsSubsetOf({2U, 3U, 4U}));
}

// What setting the stake by the two tapes really does when all places are known only so well:
// holding stakes stand where they stand, the tapes read what the move says, the plan is laid on
// the true places of the corners kept.
TEST(Moves, PredictTheChanceThatComesTrue) {
  const unsigned seed = 52;
  std::mt19937 random(seed);
  std::normal_distribution<double> normal;
  const double sd_m = 0.0024;
  const double set_m = 0.0018;
  Survey survey = polygon_site(5, 3.0);
  push(survey, 1, {0.02, 0.03});
  set_every_sd(survey, sd_m);
  base::Tolerance tolerance;
  tolerance.confidence = 0.8;
  const Placement placement = fewest_moves(survey, tolerance);
  const auto result = moves(survey, placement, tolerance, set_m);
  ASSERT_THAT(result, SizeIs(1));
  ASSERT_THAT(result[0].tapes, SizeIs(2));
  int in = 0;
  constexpr int kSites = 20000;
  for (int k = 0; k < kSites; ++k) {
    Survey truth = survey;
    scatter(truth, sd_m, random);
    truth.measured[1] = false;  // the plan lies on the others
    const Rigid rigid = least_squares(truth, tolerance).rigid;
    const base::Point wanted = laid(rigid, survey.planned[1]);
    const auto& tapes = result[0].tapes;
    base::Point set = where_tapes_meet(truth.found[tapes[0].from], tapes[0].length_m,
                                       truth.found[tapes[1].from], tapes[1].length_m, wanted);
    set = set + base::Point{set_m * normal(random), set_m * normal(random)};
    if (base::distance_m(set, wanted) <= tolerance.corner_m) ++in;
  }
  const double share = static_cast<double>(in) / kSites;
  EXPECT_GT(share, 0.6);
  EXPECT_LT(share, 0.99);
  const double five_sd = 5.0 * std::sqrt(share * (1.0 - share) / kSites);
  EXPECT_NEAR(result[0].predicted_chance_in, share, five_sd) << "seed " << seed;
}

TEST(Moves, LeaveHeldStakesWhereTheyAre) {
  Survey survey = polygon_site(5, 3.0);
  survey.hold = {0, 2};
  // The held stakes are 40 mm too far apart: both are out, and neither moves.
  push(survey, 0,
       (0.04 / base::distance_m(survey.planned[0], survey.planned[2])) *
           (survey.planned[0] - survey.planned[2]));
  const Placement placement = fewest_moves(survey, base::Tolerance{});
  EXPECT_EQ(placement.corners[0].verdict, Verdict::out);
  EXPECT_EQ(placement.corners[2].verdict, Verdict::out);
  for (const Move& move : moves(survey, placement, base::Tolerance{}, kSetSd_m)) {
    EXPECT_NE(move.corner, 0U);
    EXPECT_NE(move.corner, 2U);
    ASSERT_THAT(move.tapes, SizeIs(2));
    EXPECT_THAT((std::vector<std::size_t>{move.tapes[0].from, move.tapes[1].from}),
                testing::UnorderedElementsAre(0U, 2U));
  }
}

TEST(Moves, HoldTheTapeAtAStakeOnceMovedWhereFewerThanTwoStay) {
  Survey survey = polygon_site(5, 3.0);
  survey.hold = {0};
  survey.measured[3] = false;
  // About A nothing else fits: B, C and E are each too far away by 50 mm and more.
  for (const std::size_t corner : {1U, 2U, 4U}) {
    const base::Point away = survey.planned[corner] - survey.planned[0];
    push(survey, corner, (0.05 / base::norm_m(away)) * away);
  }
  const Placement placement = fewest_moves(survey, base::Tolerance{});
  EXPECT_THAT(placement.kept, testing::ElementsAre(0));
  const auto result = moves(survey, placement, base::Tolerance{}, kSetSd_m);
  ASSERT_THAT(result, SizeIs(3));
  EXPECT_THAT(result[0].tapes, IsEmpty());
  ASSERT_THAT(result[1].tapes, SizeIs(2));
  EXPECT_NEAR(result[1].tapes[1].length_m, base::distance_m(survey.planned[1], survey.planned[2]),
              1e-9);
  ASSERT_THAT(result[2].tapes, SizeIs(2));
}

TEST(Moves, AreNoneWhenNothingIsOut) {
  const Survey survey = polygon_site(8, 3.0);
  EXPECT_THAT(moves(survey, fewest_moves(survey, base::Tolerance{}), base::Tolerance{}, kSetSd_m),
              IsEmpty());
}

// Readings far coarser than the tolerance leave every corner's chance small; a stake found
// where it should be is not sent anywhere.
TEST(Moves, DoNotSendAStakeThatIsFoundInPlace) {
  Survey survey = polygon_site(6, 3.0);
  set_every_sd(survey, 0.1);
  const Placement placement = fewest_moves(survey, base::Tolerance{});
  EXPECT_EQ(placement.corners[0].verdict, Verdict::out);
  EXPECT_THAT(moves(survey, placement, base::Tolerance{}, kSetSd_m), IsEmpty());
}

}  // namespace
}  // namespace stakewright::placement
