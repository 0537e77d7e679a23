#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <boost/math/distributions/chi_squared.hpp>
#include <cmath>
#include <numbers>
#include <random>
#include <stdexcept>

#include "site.hpp"
#include "stakewright/placement/placement.hpp"

namespace stakewright::placement {
namespace {

using testing::ElementsAre;
using testing::SizeIs;

TEST(Laid, TurnsClockwiseAboutTheSitesOriginAndThenShifts) {
  const base::Point at = laid({10.0, 20.0, std::numbers::pi / 2.0}, {0.0, 3.0});
  EXPECT_NEAR(at.x_m, 13.0, 1e-12);  // forward turned clockwise is right
  EXPECT_NEAR(at.y_m, 20.0, 1e-12);
}

TEST(Placement, SaysHowACornerIsOffOutwardAndClockwise) {
  Survey survey = polygon_site(6, 3.0, {100.0, -50.0});
  const base::Point outward = (1.0 / 3.0) * (survey.planned[4] - survey.center);
  push(survey, 4, 0.020 * outward + -0.030 * base::clockwise(outward));
  turn_and_shift(survey, 1.1, {-4.0, 7.0});
  const CornerResult corner = fewest_moves(survey, base::Tolerance{}).corners[4];
  EXPECT_NEAR(corner.outward_m, 0.020, 1e-9);
  EXPECT_NEAR(corner.sideways_m, -0.030, 1e-9);
  EXPECT_NEAR(corner.off_m, std::hypot(0.020, 0.030), 1e-9);
}

TEST(Placement, RecoversTheTurnAndShiftOfTheSite) {
  Survey survey = polygon_site(7, 4.0, {30.0, 12.0});
  turn_and_shift(survey, -2.5, {3.0, -9.0});
  for (const Placement& placement :
       {fewest_moves(survey, base::Tolerance{}), least_squares(survey, base::Tolerance{})}) {
    EXPECT_NEAR(placement.rigid.turn_rad, -2.5, 1e-9);
    EXPECT_NEAR(placement.rigid.x_m, 3.0, 1e-7);
    EXPECT_NEAR(placement.rigid.y_m, -9.0, 1e-7);
    EXPECT_THAT(corners_with(placement, Verdict::in), SizeIs(7));
  }
}

// Least squares by its definition: no small turn or shift makes the sum of squares smaller.
TEST(LeastSquares, LeavesNoTurnOrShiftThatFitsBetter) {
  const unsigned seed = 5;
  std::mt19937 random(seed);
  Survey survey = polygon_site(6, 3.0);
  scatter(survey, 0.02, random);
  const Rigid best = least_squares(survey, base::Tolerance{}).rigid;
  const auto squares = [&](Rigid rigid) {
    double sum = 0.0;
    for (std::size_t i = 0; i < 6; ++i) {
      const double off = base::distance_m(survey.found[i], laid(rigid, survey.planned[i]));
      sum += off * off;
    }
    return sum;
  };
  const double least = squares(best);
  for (const double by : {-1e-4, 1e-4}) {
    EXPECT_GT(squares({best.x_m + by, best.y_m, best.turn_rad}), least);
    EXPECT_GT(squares({best.x_m, best.y_m + by, best.turn_rad}), least);
    EXPECT_GT(squares({best.x_m, best.y_m, best.turn_rad + by}), least);
  }
}

// A deviation relative to the corners kept has no shift and no turn left in it: the sums over
// those corners of x, of y and of the moment about their middle do not vary at all.
TEST(DeviationCovariance, HasNoRigidMotionLeftInTheCornersKept) {
  const unsigned seed = 8;
  std::mt19937 random(seed);
  Survey survey = polygon_site(7, 3.0, {20.0, 5.0});
  scatter(survey, 0.0005, random);
  push(survey, 3, {0.04, 0.0});
  set_random_covariance(survey, 0.003, random);
  const Placement placement = fewest_moves(survey, base::Tolerance{});
  ASSERT_THAT(placement.kept, ElementsAre(0, 1, 2, 4, 5, 6));
  base::Point middle;
  for (const std::size_t i : placement.kept) {
    middle = middle + (1.0 / 6.0) * placement.corners[i].wanted;
  }
  const base::Matrix& c = placement.deviation_covariance;
  for (std::size_t col = 0; col < c.cols; ++col) {
    double along_x = 0.0;
    double along_y = 0.0;
    double moment = 0.0;
    for (const std::size_t i : placement.kept) {
      const base::Point arm = placement.corners[i].wanted - middle;
      along_x += c(2 * i, col);
      along_y += c(2 * i + 1, col);
      moment += arm.y_m * c(2 * i, col) - arm.x_m * c(2 * i + 1, col);
    }
    EXPECT_NEAR(along_x, 0.0, 1e-18) << "seed " << seed;
    EXPECT_NEAR(along_y, 0.0, 1e-18);
    EXPECT_NEAR(moment, 0.0, 1e-17);
  }
}

// The same shape known from another datum: a common motion of all corners, however uncertain,
// changes nothing.
TEST(DeviationCovariance, ForgetsWhereTheSiteAsAWholeLies) {
  const unsigned seed = 18;
  std::mt19937 random(seed);
  Survey survey = polygon_site(5, 3.0);
  set_random_covariance(survey, 0.002, random);
  Survey loose = survey;
  for (std::size_t i = 0; i < 5; ++i) {
    for (std::size_t j = 0; j < 5; ++j) {
      // 50 mm of shift each way and 10 mrad of turn about the origin.
      const base::Point arm_i = base::clockwise(survey.found[i]);
      const base::Point arm_j = base::clockwise(survey.found[j]);
      loose.covariance(2 * i, 2 * j) += 0.0025 + 1e-4 * arm_i.x_m * arm_j.x_m;
      loose.covariance(2 * i, 2 * j + 1) += 1e-4 * arm_i.x_m * arm_j.y_m;
      loose.covariance(2 * i + 1, 2 * j) += 1e-4 * arm_i.y_m * arm_j.x_m;
      loose.covariance(2 * i + 1, 2 * j + 1) += 0.0025 + 1e-4 * arm_i.y_m * arm_j.y_m;
    }
  }
  for (const std::vector<std::size_t>& hold : {std::vector<std::size_t>{}, {2}, {0, 3}}) {
    survey.hold = hold;
    loose.hold = hold;
    const auto expected = fewest_moves(survey, base::Tolerance{}).deviation_covariance.values;
    const auto actual = fewest_moves(loose, base::Tolerance{}).deviation_covariance.values;
    for (std::size_t k = 0; k < expected.size(); ++k) EXPECT_NEAR(actual[k], expected[k], 1e-15);
  }
}

// The found places thrown about by their covariance, the plan laid again each time on the same
// corners: the spread of the deviations is the one given.
TEST(DeviationCovariance, IsWhatThousandsOfSurveysShow) {
  const unsigned seed = 77;
  std::mt19937 random(seed);
  std::normal_distribution<double> normal(0.0, 0.0008);
  const Survey site = polygon_site(5, 3.0);
  base::Tolerance wide;  // all corners are kept each time
  wide.corner_m = 0.02;
  for (const std::vector<std::size_t>& hold : {std::vector<std::size_t>{}, {1}, {1, 3}}) {
    base::Matrix sum(10, 10);
    constexpr int kSurveys = 4000;
    for (int k = 0; k < kSurveys; ++k) {
      Survey survey = site;
      survey.hold = hold;
      for (base::Point& point : survey.found) {
        const double common = normal(random);
        point.x_m += normal(random) + common;
        point.y_m += normal(random) - common;
      }
      const Placement placement = fewest_moves(survey, wide);
      ASSERT_THAT(placement.kept, SizeIs(hold.size() == 2 ? 2 : 5));
      std::vector<double> off;
      for (const CornerResult& corner : placement.corners) {
        off.push_back(corner.found.x_m - corner.wanted.x_m);
        off.push_back(corner.found.y_m - corner.wanted.y_m);
      }
      for (std::size_t r = 0; r < 10; ++r) {
        for (std::size_t c = 0; c < 10; ++c) sum(r, c) += off[r] * off[c] / kSurveys;
      }
    }
    Survey survey = site;
    survey.hold = hold;
    for (std::size_t i = 0; i < 5; ++i) {  // x: n + c, y: n - c
      survey.covariance(2 * i, 2 * i) = 2.0 * 0.0008 * 0.0008;
      survey.covariance(2 * i + 1, 2 * i + 1) = 2.0 * 0.0008 * 0.0008;
      survey.covariance(2 * i, 2 * i + 1) = -0.0008 * 0.0008;
      survey.covariance(2 * i + 1, 2 * i) = -0.0008 * 0.0008;
    }
    const base::Matrix c = fewest_moves(survey, wide).deviation_covariance;
    for (std::size_t r = 0; r < 10; ++r) {
      for (std::size_t col = 0; col < 10; ++col) {
        // Five standard errors of a sampled covariance.
        const double standard_error =
            std::sqrt((c(r, r) * c(col, col) + c(r, col) * c(r, col)) / kSurveys);
        EXPECT_NEAR(sum(r, col), c(r, col), 5.0 * standard_error + 1e-12)
            << "seed " << seed << " held " << hold.size() << " at " << r << ", " << col;
      }
    }
  }
}

TEST(Ellipse, HasTheAxesAndBearingOfTheSpreadAtTheJobsConfidence) {
  Survey survey = polygon_site(4, 3.0);
  survey.hold = {0, 1};
  // 4 mm along bearing 30 degrees, 1 mm across.
  const base::Point along = base::along(std::numbers::pi / 6.0);
  const base::Point across = base::clockwise(along);
  const double major = 16e-6;
  const double minor = 1e-6;
  survey.covariance(4, 4) = major * along.x_m * along.x_m + minor * across.x_m * across.x_m;
  survey.covariance(5, 5) = major * along.y_m * along.y_m + minor * across.y_m * across.y_m;
  survey.covariance(4, 5) = major * along.x_m * along.y_m + minor * across.x_m * across.y_m;
  survey.covariance(5, 4) = survey.covariance(4, 5);
  for (const double confidence : {0.5, 0.95, 0.999}) {
    base::Tolerance tolerance;
    tolerance.confidence = confidence;
    const Ellipse ellipse = fewest_moves(survey, tolerance).corners[2].ellipse;
    const double factor =
        std::sqrt(boost::math::quantile(boost::math::chi_squared(2.0), confidence));
    EXPECT_NEAR(ellipse.major_m, factor * 0.004, 1e-12);
    EXPECT_NEAR(ellipse.minor_m, factor * 0.001, 1e-12);
    EXPECT_NEAR(ellipse.bearing_rad, std::numbers::pi / 6.0, 1e-9);
  }
}

TEST(Verdict, FollowsTheChanceAndTheJobsConfidence) {
  const unsigned seed = 3;
  std::mt19937 random(seed);
  int met[3] = {0, 0, 0};
  for (int trial = 0; trial < 60; ++trial) {
    Survey survey = polygon_site(6, 3.0);
    scatter(survey, 0.004, random);
    set_every_sd(survey, 0.002);
    base::Tolerance tolerance;
    tolerance.confidence = 0.9;
    for (const CornerResult& corner : fewest_moves(survey, tolerance).corners) {
      const Verdict expected = corner.chance_in >= 0.9   ? Verdict::in
                               : corner.chance_in <= 0.1 ? Verdict::out
                                                         : Verdict::undecided;
      EXPECT_EQ(corner.verdict, expected) << "seed " << seed;
      ++met[static_cast<int>(corner.verdict)];
    }
  }
  EXPECT_THAT(met, testing::Each(testing::Gt(10)));
}

void expect_same_verdicts(const Placement& actual, const Placement& expected,
                          std::size_t relabeled_by, const std::string& where) {
  const std::size_t n = expected.corners.size();
  for (std::size_t i = 0; i < n; ++i) {
    const CornerResult& a = actual.corners[(i + relabeled_by) % n];
    const CornerResult& e = expected.corners[i];
    EXPECT_EQ(a.verdict, e.verdict) << where;
    EXPECT_NEAR(a.chance_in, e.chance_in, 1e-6) << where;
    EXPECT_NEAR(a.outward_m, e.outward_m, 1e-8) << where;
    EXPECT_NEAR(a.sideways_m, e.sideways_m, 1e-8) << where;
    EXPECT_NEAR(a.ellipse.major_m, e.ellipse.major_m, 1e-8) << where;
  }
}

TEST(Placement, ChangesNoVerdictWhenTheSiteIsTurnedAndShifted) {
  const unsigned seed = 41;
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> angle(-3.1, 3.1);
  for (int trial = 0; trial < 40; ++trial) {
    Survey survey = polygon_site(4 + static_cast<std::size_t>(trial % 9), 3.0);
    if (trial % 4 == 3) survey.hold = {1};
    scatter(survey, 0.006, random);
    set_random_covariance(survey, 0.002, random);
    Survey moved = survey;
    turn_and_shift(moved, angle(random), {200.0, -300.0});
    const std::string where = "seed " + std::to_string(seed) + " trial " + std::to_string(trial);
    expect_same_verdicts(fewest_moves(moved, base::Tolerance{}),
                         fewest_moves(survey, base::Tolerance{}), 0, where);
    expect_same_verdicts(least_squares(moved, base::Tolerance{}),
                         least_squares(survey, base::Tolerance{}), 0, where);
  }
}

TEST(Placement, ChangesNothingWhenTheLabelsStartElsewhere) {
  const unsigned seed = 43;
  std::mt19937 random(seed);
  for (int trial = 0; trial < 40; ++trial) {
    const std::size_t n = 4 + static_cast<std::size_t>(trial % 12);
    Survey survey = polygon_site(n, 3.0);
    scatter(survey, 0.006, random);
    set_random_covariance(survey, 0.002, random);
    const std::size_t by = 1 + random() % (n - 1);
    Survey relabeled = survey;
    for (std::size_t i = 0; i < n; ++i) {
      const std::size_t to = (i + by) % n;
      relabeled.planned[to] = survey.planned[i];
      relabeled.found[to] = survey.found[i];
      for (std::size_t j = 0; j < n; ++j) {
        const std::size_t too = (j + by) % n;
        for (const std::size_t r : {0U, 1U}) {
          for (const std::size_t c : {0U, 1U}) {
            relabeled.covariance(2 * to + r, 2 * too + c) = survey.covariance(2 * i + r, 2 * j + c);
          }
        }
      }
    }
    expect_same_verdicts(fewest_moves(relabeled, base::Tolerance{}),
                         fewest_moves(survey, base::Tolerance{}), by,
                         "seed " + std::to_string(seed) + " trial " + std::to_string(trial));
  }
}

// Such a survey is a bug of ours; in release too it must not read past the end.
TEST(Survey, WithoutAPlaceForEveryCornerIsRefusedInEveryBuild) {
  Survey survey = polygon_site(6, 3.5);
  set_every_sd(survey, 0.002);
  survey.found.pop_back();
  EXPECT_THROW(fewest_moves(survey, {}), std::logic_error);
  EXPECT_THROW(least_squares(survey, {}), std::logic_error);
}

}  // namespace
}  // namespace stakewright::placement
