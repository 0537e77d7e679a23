#include "stakewright/placement/movement.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "congruence.hpp"
#include "site.hpp"

namespace stakewright::placement {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

constexpr MovementLevel kLevel;

/// Nothing moved, each round's places with the same standard deviation each way.
TwoRounds two_rounds(std::size_t sides, double sd_m) {
  Survey survey = polygon_site(sides, 3.5, {4.0, -2.0});
  set_every_sd(survey, std::sqrt(2.0) * sd_m);
  TwoRounds rounds;
  rounds.planned = survey.planned;
  rounds.center = survey.center;
  rounds.before = survey.planned;
  rounds.after = survey.planned;
  rounds.covariance = survey.covariance;
  rounds.measured = survey.measured;
  return rounds;
}

void move(TwoRounds& rounds, std::size_t stake, base::Point by) {
  rounds.after[stake] = rounds.after[stake] + by;
}

/// The whole figure turned and shifted after the first round: nothing has moved in it.
void move_all(TwoRounds& rounds, double turn_rad, base::Point by) {
  for (base::Point& place : rounds.after) place = turned_clockwise(place, turn_rad) + by;
}

std::vector<std::size_t> moved_of(const Movement& movement, Moved moved) {
  std::vector<std::size_t> result;
  for (std::size_t i = 0; i < movement.stakes.size(); ++i) {
    if (movement.stakes[i].moved == moved) result.push_back(i);
  }
  return result;
}

// Upper points of chi-square: table of a university, check in tests/published; of F through the
// ellipse factor for three redundancies, 4.371 = sqrt(2 F) (printed in a network adjustment's
// listing, and by definition).
TEST(Significance, FollowsThePublishedPointsOfChiSquareAndF) {
  const Significance stated(1.0, 0);
  EXPECT_NEAR(stated.limit(3, 0.05), 7.81473, 5e-6);
  EXPECT_NEAR(stated.limit(5, 0.01), 15.08627, 5e-6);
  EXPECT_NEAR(stated.by_noise(7.81473, 3), 0.05, 1e-6);
  const Significance found(2.5, 3);
  EXPECT_NEAR(std::sqrt(found.limit(2, 0.05)), 4.371, 0.0005);
  EXPECT_DOUBLE_EQ(found.statistic(5.0), 2.0);
}

// lambda0 = 17.0746 for 0.001 and 0.80 with one degree (W. Baarda, A testing procedure for use in
// geodetic networks, 1968; from memory, and by definition).  7.849, 9.635, 10.903 for 0.05 and
// 0.80 with 1, 2, 3 degrees: tables of the non-central chi-square, from memory.
TEST(Significance, GivesTheNonCentralityOfTheTables) {
  const Significance stated(1.0, 0);
  EXPECT_NEAR(stated.non_centrality(1, 0.001, 0.80), 17.0746, 0.0005);
  EXPECT_NEAR(stated.non_centrality(1, 0.05, 0.80), 7.849, 0.001);
  EXPECT_NEAR(stated.non_centrality(2, 0.05, 0.80), 9.635, 0.001);
  EXPECT_NEAR(stated.non_centrality(3, 0.05, 0.80), 10.903, 0.001);
  // An F test needs more, and nearly the same with many redundancies.
  EXPECT_GT(Significance(1.0, 5).non_centrality(2, 0.05, 0.80), 11.0);
  EXPECT_NEAR(Significance(1.0, 4000).non_centrality(2, 0.05, 0.80), 9.635, 0.03);
}

// Two stakes: the form is the square of the change of their distance over its variance, by the
// law of propagation (JCGM 100:2008, 5.2).
TEST(Congruence, OfTwoStakesIsTheChangeOfTheirDistanceInItsOwnSpreads) {
  TwoRounds rounds = two_rounds(4, 0.002);
  std::mt19937 random(7);
  Survey survey = polygon_site(4, 3.5, {4.0, -2.0});
  set_random_covariance(survey, 0.002, random);
  rounds.covariance = survey.covariance;
  move(rounds, 2, {0.003, -0.004});
  move_all(rounds, 0.002, {0.05, 0.01});
  const base::Point arm = rounds.before[2] - rounds.before[0];
  const base::Point u = (1.0 / base::norm_m(arm)) * arm;
  const double row[] = {-u.x_m, -u.y_m, u.x_m, u.y_m};
  const std::size_t at[] = {0, 1, 4, 5};
  double variance = 0.0;
  for (std::size_t r = 0; r < 4; ++r) {
    for (std::size_t c = 0; c < 4; ++c)
      variance += row[r] * row[c] * survey.covariance(at[r], at[c]);
  }
  const double change_m = base::distance_m(rounds.after[0], rounds.after[2]) - base::norm_m(arm);
  const Congruence found = congruence(rounds, {0, 2});
  EXPECT_EQ(found.freedom, 1);
  EXPECT_NEAR(found.form / (change_m * change_m / variance), 1.0, 0.005);  // a moved stake turns u
}

// Equal spreads each way: the form is the sum of squares left by the best rigid laying, over the
// variance (Procrustes, docs/methods/placement.md).
TEST(Congruence, OfEqualSpreadsIsWhatTheBestLayingLeaves) {
  TwoRounds rounds = two_rounds(6, 0.002);
  move(rounds, 1, {0.011, 0.002});
  move(rounds, 4, {-0.003, 0.006});
  Survey survey = polygon_site(6, 3.5, {4.0, -2.0});
  survey.found = rounds.after;
  const Placement best = least_squares(survey, {});
  double squares_m2 = 0.0;
  for (const CornerResult& corner : best.corners) squares_m2 += corner.off_m * corner.off_m;
  const Congruence found = congruence(rounds, {0, 1, 2, 3, 4, 5});
  EXPECT_EQ(found.freedom, 9);
  EXPECT_NEAR(found.form, squares_m2 / (2.0 * 0.002 * 0.002), 1e-6 * found.form);
}

TEST(Congruence, ForgetsWhereTheFigureLiesAndTheDatumOfItsCovariance) {
  TwoRounds rounds = two_rounds(5, 0.002);
  Survey survey = polygon_site(5, 3.5, {4.0, -2.0});
  std::mt19937 random(11);
  set_random_covariance(survey, 0.002, random);
  rounds.covariance = survey.covariance;
  move(rounds, 3, {0.004, 0.009});
  const double form = congruence(rounds, {0, 1, 2, 3, 4}).form;
  move_all(rounds, 0.0, {0.4, -0.2});
  EXPECT_NEAR(congruence(rounds, {0, 1, 2, 3, 4}).form, form, 1e-6 * form);
  survey.found = survey.planned;
  rounds.covariance = deviation_covariance(survey, {}, {{0, 1, 2}, {0, 1, 2}});
  // To the first order only: the moved stake turns the laying by a milliradian.
  EXPECT_NEAR(congruence(rounds, {0, 1, 2, 3, 4}).form, form, 1e-3 * form);
}

TEST(Movement, IsNotShownOfAFigureThatOnlyTurnedAndShiftedAsAWhole) {
  TwoRounds rounds = two_rounds(6, 0.001);
  move_all(rounds, 0.01, {0.2, -0.1});
  const Movement found = movement(rounds, kLevel);
  EXPECT_FALSE(found.shown);
  EXPECT_NEAR(found.statistic, 0.0, 1e-9);
  EXPECT_NEAR(found.by_noise, 1.0, 1e-9);
  EXPECT_THAT(moved_of(found, Moved::no), SizeIs(6));
}

TEST(Movement, NamesTheStakeThatMovedAndHowFarOutwardAndClockwise) {
  TwoRounds rounds = two_rounds(6, 0.001);
  const base::Point radius = rounds.planned[2] - rounds.center;
  const base::Point outward = (1.0 / base::norm_m(radius)) * radius;
  move(rounds, 2, 0.020 * outward + -0.010 * base::clockwise(outward));
  move_all(rounds, 0.003, {0.05, 0.02});
  const Movement found = movement(rounds, kLevel);
  EXPECT_TRUE(found.shown);
  EXPECT_THAT(moved_of(found, Moved::yes), ElementsAre(2));
  EXPECT_THAT(moved_of(found, Moved::no), ElementsAre(0, 1, 3, 4, 5));
  EXPECT_THAT(found.stable, ElementsAre(0, 1, 3, 4, 5));
  EXPECT_THAT(found.alternatives, IsEmpty());
  EXPECT_NEAR(found.stakes[2].outward_m, 0.020, 2e-4);
  EXPECT_NEAR(found.stakes[2].sideways_m, -0.010, 2e-4);
  EXPECT_LT(found.stakes[2].by_noise, 1e-6);
  EXPECT_NEAR(found.stakes[0].distance_m, 0.0, 1e-9);
}

TEST(Movement, NamesTwoStakesThatMovedAtOnceOfMany) {
  for (const std::size_t sides : {7U, 20U, 48U}) {
    TwoRounds rounds = two_rounds(sides, 0.001);
    move(rounds, 1, {0.020, 0.010});
    move(rounds, 5, {-0.015, 0.010});
    const Movement found = movement(rounds, kLevel);
    EXPECT_THAT(moved_of(found, Moved::yes), ElementsAre(1, 5)) << sides;
    EXPECT_THAT(found.stable, SizeIs(sides - 2)) << sides;
  }
}

// Half of the stakes have gone one way together, or the other half the other way: nobody can say.
TEST(Movement, CannotTellWhichHalfMovedAgainstTheOther) {
  TwoRounds rounds = two_rounds(6, 0.001);
  for (const std::size_t stake : {0U, 1U, 2U}) move(rounds, stake, {0.010, 0.003});
  const Movement found = movement(rounds, kLevel);
  EXPECT_TRUE(found.shown);
  EXPECT_THAT(moved_of(found, Moved::yes), IsEmpty());
  ASSERT_FALSE(found.alternatives.empty());
  std::vector<std::vector<std::size_t>> halves = found.alternatives;
  halves.push_back(found.stable);
  EXPECT_THAT(halves, Contains(ElementsAre(0, 1, 2)));
  EXPECT_THAT(halves, Contains(ElementsAre(3, 4, 5)));
}

// Held stakes decide between the halves.
TEST(Movement, IsSeenAgainstHeldStakesWhereThereAre) {
  TwoRounds rounds = two_rounds(6, 0.001);
  for (const std::size_t stake : {0U, 1U, 2U}) move(rounds, stake, {0.020, 0.006});
  rounds.hold = {3, 4};
  const Movement found = movement(rounds, kLevel);
  EXPECT_FALSE(found.hold_moved);
  EXPECT_THAT(moved_of(found, Moved::yes), ElementsAre(0, 1, 2));
  EXPECT_THAT(found.datum.shift, ElementsAre(3, 4));
  EXPECT_NEAR(found.stakes[1].distance_m, std::hypot(0.020, 0.006), 1e-5);
}

TEST(Movement, IsNotSeenAgainstHeldStakesThatHaveMovedAgainstEachOther) {
  TwoRounds rounds = two_rounds(6, 0.001);
  move(rounds, 3, {0.015, -0.010});
  rounds.hold = {3, 4};
  const Movement found = movement(rounds, kLevel);
  EXPECT_TRUE(found.hold_moved);
  EXPECT_THAT(moved_of(found, Moved::yes), ElementsAre(3));
}

// Tied to known points the whole figure cannot move unseen.
TEST(Movement, OfTheWholeFigureIsSeenAgainstKnownPoints) {
  TwoRounds rounds = two_rounds(5, 0.001);
  rounds.tied = true;
  for (std::size_t stake = 0; stake < 5; ++stake) move(rounds, stake, {0.010, 0.0});
  const Movement found = movement(rounds, kLevel);
  EXPECT_EQ(found.freedom, 10);
  EXPECT_TRUE(found.shown);
  EXPECT_THAT(found.stable, IsEmpty());
  rounds.tied = false;
  EXPECT_FALSE(movement(rounds, kLevel).shown);
}

TEST(Movement, NamesAStakeAgainstKnownPoints) {
  TwoRounds rounds = two_rounds(5, 0.001);
  rounds.tied = true;
  move(rounds, 3, {0.0, 0.012});
  const Movement found = movement(rounds, kLevel);
  EXPECT_THAT(moved_of(found, Moved::yes), ElementsAre(3));
  EXPECT_NEAR(found.stakes[3].distance_m, 0.012, 1e-12);
}

// Every stake has gone its own way.
TEST(Movement, OfAllStakesLeavesNoGroundToSeeItFrom) {
  TwoRounds rounds = two_rounds(6, 0.0005);
  for (std::size_t stake = 0; stake < 6; ++stake) {
    const auto k = static_cast<double>(stake);
    move(rounds, stake, {0.02 * std::sin(2.4 * k * k), 0.02 * std::cos(1.1 + 3.3 * k)});
  }
  const Movement found = movement(rounds, kLevel);
  EXPECT_TRUE(found.shown);
  EXPECT_THAT(found.stable, IsEmpty());
  EXPECT_THAT(moved_of(found, Moved::undecided), SizeIs(6));
}

// A movement of the size said, in the worst direction, gives exactly the non-centrality asked.
TEST(Movement, GivesTheSmallestThatComesToLightByItsDefinition) {
  TwoRounds rounds = two_rounds(6, 0.002);
  const double smallest_m = movement(rounds, kLevel).stakes[1].smallest_shown_m;
  double worst = 1e9;
  for (int degree = 0; degree < 180; ++degree) {
    TwoRounds moved = rounds;
    move(moved, 1, smallest_m * base::along(degree * std::numbers::pi / 180.0));
    worst = std::min(worst, movement(moved, kLevel).statistic);
  }
  const double asked = Significance(1.0, 0).non_centrality(9, 0.05, 0.80);
  EXPECT_NEAR(worst / asked, 1.0, 0.002);
}

TEST(Movement, AllowsForReadingsThatScatterMoreThanStated) {
  TwoRounds rounds = two_rounds(6, 0.001);
  move(rounds, 2, {0.010, 0.0});
  EXPECT_TRUE(movement(rounds, kLevel).shown);
  rounds.variance_factor = 9.0;
  rounds.redundancy = 20;
  const Movement found = movement(rounds, kLevel);
  EXPECT_FALSE(found.shown);
  EXPECT_GT(found.stakes[2].ellipse.major_m, 0.006);
}

TEST(Movement, LeavesStakesOpenThatAreNotInBothRounds) {
  TwoRounds rounds = two_rounds(6, 0.001);
  rounds.measured[4] = false;
  rounds.after[4] = {99.0, 99.0};
  const Movement found = movement(rounds, kLevel);
  EXPECT_FALSE(found.shown);
  EXPECT_EQ(found.stakes[4].moved, Moved::undecided);
  EXPECT_EQ(found.stakes[4].distance_m, 0.0);
  for (std::size_t stake = 0; stake < 4; ++stake) rounds.measured[stake] = false;
  EXPECT_FALSE(movement(rounds, kLevel).shown);
}

}  // namespace
}  // namespace stakewright::placement
