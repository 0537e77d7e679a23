// The search inside: circles, witnesses, and a pivot the plan is laid on exactly.
#include "largest_sets.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "site.hpp"

namespace stakewright::placement {
namespace {

using testing::SizeIs;

std::vector<base::Point> random_points(std::size_t count, std::mt19937& random) {
  std::normal_distribution<double> normal;
  std::vector<base::Point> points;
  for (std::size_t i = 0; i < count; ++i) {
    const double x = normal(random);
    points.push_back({x, normal(random)});
  }
  return points;
}

double farthest(const std::vector<base::Point>& points, base::Point center) {
  double far = 0.0;
  for (const base::Point point : points) far = std::max(far, base::distance_m(point, center));
  return far;
}

// By definition: it holds every point, and moving its center anywhere needs a larger one.
TEST(SmallestCircle, HoldsEveryPointAndCannotBeSmaller) {
  const unsigned seed = 14;
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> bearing(0.0, 2.0 * std::numbers::pi);
  std::size_t with_three = 0;
  for (int trial = 0; trial < 300; ++trial) {
    const auto points = random_points(1 + static_cast<std::size_t>(trial % 12), random);
    std::vector<std::size_t> order(points.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::shuffle(order.begin(), order.end(), random);
    const Circle circle = smallest_circle(points, order);
    EXPECT_NEAR(farthest(points, circle.center), circle.radius_m, 1e-10) << "seed " << seed;
    for (int k = 0; k < 20; ++k) {
      const base::Point elsewhere = circle.center + 1e-5 * base::along(bearing(random));
      EXPECT_GT(farthest(points, elsewhere), circle.radius_m) << "seed " << seed;
    }
    with_three += circle.rim_count == 3 ? 1U : 0U;
    EXPECT_TRUE(std::is_permutation(order.begin(), order.end(), order.begin()));
  }
  EXPECT_GT(with_three, 50U);
}

TEST(SmallestCircle, StandsPointsThatFallTogetherOrInLine) {
  std::vector<std::size_t> order{0, 1, 2, 3};
  const std::vector<base::Point> together(4, base::Point{2.0, 3.0});
  EXPECT_EQ(smallest_circle(together, order).radius_m, 0.0);
  const std::vector<base::Point> in_line{{0.0, 0.0}, {0.3, 0.1}, {3.0, 1.0}, {1.5, 0.5}};
  EXPECT_NEAR(smallest_circle(in_line, order).radius_m, std::sqrt(10.0) / 2.0, 1e-12);
}

Question question_of(const Survey& survey) {
  Question question;
  question.planned = survey.planned;
  question.found = survey.found;
  question.tolerance_m = base::Tolerance{}.corner_m;
  return question;
}

double worst_m(const Question& question, const Rigid& rigid, const Set& set) {
  double worst = 0.0;
  for (const std::size_t i : set) {
    worst = std::max(worst, base::distance_m(question.found[i], laid(rigid, question.planned[i])));
  }
  return worst;
}

TEST(Minimax, LeavesNoTurnOrShiftThatBringsTheFarthestCornerCloser) {
  const unsigned seed = 15;
  std::mt19937 random(seed);
  std::normal_distribution<double> normal;
  for (int trial = 0; trial < 40; ++trial) {
    const std::size_t n = 3 + static_cast<std::size_t>(trial % 7);
    Survey survey = polygon_site(n, 2.0, {50.0, 20.0});
    scatter(survey, 0.003, random);
    const Question question = question_of(survey);
    const Set all = set_of((Mask{1} << n) - 1U);
    const Rigid best = minimax(question, all);
    const double least = worst_m(question, best, all);
    for (int k = 0; k < 60; ++k) {
      // Turned about the middle of the site, then shifted.
      const double turn = 1e-5 * normal(random);
      const base::Point middle = laid(best, survey.center);
      Rigid other{0.0, 0.0, best.turn_rad + turn};
      const base::Point back = middle - laid(other, survey.center);
      other.x_m = back.x_m + 2e-5 * normal(random);
      other.y_m = back.y_m + 2e-5 * normal(random);
      EXPECT_GT(worst_m(question, other, all), least - 1e-9) << "seed " << seed;
    }
  }
}

// What the search rests on: a witness alone is as far off as the whole set, so that every set
// that fits lacks one of its corners.
TEST(Minimax, NamesCornersThatAloneCanBeBroughtNoCloser) {
  const unsigned seed = 16;
  std::mt19937 random(seed);
  const double tolerance_m = base::Tolerance{}.corner_m;
  int few = 0;
  int fitting = 0;
  constexpr int kTrials = 400;
  for (int trial = 0; trial < kTrials; ++trial) {
    const std::size_t n = 3 + static_cast<std::size_t>(trial % 10);
    Survey survey = polygon_site(n, 2.0);
    scatter(survey, 0.004, random);
    const Ground ground = ground_of(question_of(survey));
    const Closest whole = closest(ground, (Mask{1} << n) - 1U, 0.0);
    const Closest part = closest(ground, whole.witness, 0.0);
    if (whole.worst_m <= tolerance_m) {
      EXPECT_NEAR(part.worst_m, whole.worst_m, 1e-9) << "seed " << seed << " trial " << trial;
      ++fitting;
    } else {  // how far off is then searched only where the longest pair is within reach
      EXPECT_GT(part.worst_m, tolerance_m) << "seed " << seed << " trial " << trial;
    }
    few += set_of(whole.witness).size() <= 4 ? 1 : 0;
  }
  EXPECT_GT(few, kTrials * 9 / 10);
  EXPECT_GT(fitting, kTrials / 5);
  EXPECT_LT(fitting, kTrials * 4 / 5);
}

// With the pivot met, one turn is left: corners counted at every turn of a fine grid.
TEST(LargestSets, WithAPivotKeepAsManyCornersAsAFullSearchOfTurns) {
  const unsigned seed = 19;
  std::mt19937 random(seed);
  constexpr double kStep_rad = 5e-6;
  const double radius_m = 2.5;
  int tight = 0;
  constexpr int kTrials = 40;
  for (int trial = 0; trial < kTrials; ++trial) {
    const std::size_t n = 4 + static_cast<std::size_t>(trial % 9);
    Survey survey = polygon_site(n, radius_m);
    scatter(survey, 0.005, random);
    Question question = question_of(survey);
    question.pivot = trial % n;
    const auto count = [&](double turn_rad, double within_m) {
      return std::count_if(survey.planned.begin(), survey.planned.end(), [&](const auto& planned) {
        const auto i = static_cast<std::size_t>(&planned - survey.planned.data());
        const base::Point p = planned - survey.planned[*question.pivot];
        const base::Point q = survey.found[i] - survey.found[*question.pivot];
        return base::distance_m(q, turned_clockwise(p, turn_rad)) <= within_m;
      });
    };
    std::ptrdiff_t at_least = 0;
    std::ptrdiff_t at_most = 0;
    for (int k = -6000; k <= 6000; ++k) {
      at_least = std::max(at_least, count(k * kStep_rad, question.tolerance_m));
      at_most =
          std::max(at_most, count(k * kStep_rad, question.tolerance_m + kStep_rad * radius_m));
    }
    const Answer answer = largest_sets(question);
    for (const Set& set : answer.sets) {
      EXPECT_GE(std::ssize(set), at_least) << "seed " << seed << " trial " << trial;
      EXPECT_LE(std::ssize(set), at_most) << "seed " << seed << " trial " << trial;
      EXPECT_THAT(set, testing::Contains(*question.pivot));
      const Rigid rigid = minimax(question, set);
      EXPECT_LE(worst_m(question, rigid, set), question.tolerance_m + 1e-8);
      EXPECT_NEAR(worst_m(question, rigid, {*question.pivot}), 0.0, 1e-12);
    }
    tight += at_least == at_most ? 1 : 0;
  }
  EXPECT_GE(tight, kTrials - 2);
}

}  // namespace
}  // namespace stakewright::placement
