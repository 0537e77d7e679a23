#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <set>

#include "refusal.hpp"
#include "stakewright/adjustment/adjust.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/suspects/tapes.hpp"
#include "suspects/scene.hpp"

namespace stakewright::suspects {
namespace {

using testing::HasSubstr;

constexpr std::uint64_t kSeed = 8;

layout::Plan polygon(int sides) {
  layout::Plan plan;
  plan.polygon = {sides, scene::kRadius_m};
  return plan;
}

/// A tape of 2 mm, and with the figures a real one has beside it.
TapePlanRequest request() {
  TapePlanRequest result;
  result.instrument.name = "steel";
  result.instrument.constant_m = scene::kSigma_m;
  result.slip_m = scene::kInch_m;
  return result;
}

std::vector<layout::Tape> as_tapes(const TapePlan& plan) {
  std::vector<layout::Tape> tapes;
  for (const PlannedPull& pull : plan.pulls) tapes.push_back({pull.from, pull.to, 0, 0.0});
  return tapes;
}

/// The pulls made, all reading what they should.
adjustment::Network made(const layout::Plan& plan, const TapePlan& tapes,
                         const readings::Instrument& instrument) {
  std::vector<readings::Reading> readings;
  for (const PlannedPull& pull : tapes.pulls) {
    readings::Reading reading;
    reading.from = pull.from;
    reading.to = pull.to;
    reading.value_m = pull.length_m;
    reading.instrument = instrument.name;
    readings.push_back(reading);
  }
  return adjustment::network(plan, readings, {instrument});
}

TEST(TapePlan, TakesFewerPullsThanSidesDiagonalsAndRadii) {
  for (const int sides : {5, 6, 8, 12}) {
    const TapePlan plan = tape_plan(polygon(sides), request());
    EXPECT_TRUE(plan.reached) << sides;
    EXPECT_LT(plan.pulls.size(), layout::check_tapes(polygon(sides)).size()) << sides;
    for (const PlannedPull& pull : plan.pulls) {
      EXPECT_LE(pull.smallest_catch_m, scene::kInch_m * (1.0 + 1e-6)) << sides;
      EXPECT_LE(pull.smallest_named_m, scene::kInch_m * (1.0 + 1e-6)) << sides;
    }
    for (const PlannedCorner& corner : plan.corners)
      EXPECT_LE(corner.smallest_shift_m, 2.0 * 0.00635 * (1.0 + 1e-6)) << sides;
    EXPECT_THAT(plan.misses, testing::IsEmpty());
  }
}

TEST(TapePlan, HoldsNoPullThatCouldBeLeftOut) {
  const layout::Plan hexagon = polygon(6);
  const TapePlan plan = tape_plan(hexagon, request());
  for (std::size_t left = 0; left < plan.pulls.size(); ++left) {
    std::vector<layout::Tape> tapes = as_tapes(plan);
    tapes.erase(tapes.begin() + static_cast<std::ptrdiff_t>(left));
    EXPECT_FALSE(judged_pulls(hexagon, request(), tapes).reached) << left;
  }
}

TEST(TapePlan, SaysTheSmallestCatchThatTheAdjustmentSays) {
  for (const double per_tape : {0.0, 0.0005}) {
    TapePlanRequest asked = request();
    asked.instrument.scale = per_tape;
    asked.instrument.zero_m = per_tape;
    const layout::Plan octagon = polygon(8);
    const TapePlan plan = tape_plan(octagon, asked);
    const adjustment::Adjustment adjusted =
        adjustment::adjust(made(octagon, plan, asked.instrument));
    ASSERT_EQ(adjusted.status, adjustment::Status::settled);
    for (std::size_t i = 0; i < plan.pulls.size(); ++i)
      EXPECT_NEAR(plan.pulls[i].smallest_catch_m, adjusted.readings_out[i].smallest_catch, 1e-6);
  }
}

/// Standard deviation of one corner in its worst direction, the plan laid by least squares over the
/// others: the rigid motion solved for each coordinate of the others in turn.
double worst_sd(const adjustment::Network& network, const base::Matrix& covariance,
                std::size_t corner) {
  const std::size_t n = network.corner_count;
  base::Point mean;
  for (std::size_t p = 0; p < n; ++p)
    if (p != corner) mean = mean + (1.0 / static_cast<double>(n - 1)) * network.points[p].planned;
  double square = 0.0;
  for (std::size_t p = 0; p < n; ++p)
    if (p != corner) square += std::pow(base::distance_m(network.points[p].planned, mean), 2.0);
  // Deviation of the corner: row x and row y over all coordinates.
  std::vector<double> along_x(2 * n, 0.0);
  std::vector<double> along_y(2 * n, 0.0);
  const base::Point at = network.points[corner].planned - mean;
  along_x[2 * corner] = 1.0;
  along_y[2 * corner + 1] = 1.0;
  for (std::size_t p = 0; p < n; ++p) {
    if (p == corner) continue;
    const base::Point from = network.points[p].planned - mean;
    const double share = 1.0 / static_cast<double>(n - 1);
    // A clockwise turn θ moves (x, y) by (yθ, -xθ); θ = Σ(y·dx - x·dy)/Σr².
    along_x[2 * p] -= share + at.y_m * from.y_m / square;
    along_x[2 * p + 1] += at.y_m * from.x_m / square;
    along_y[2 * p] += at.x_m * from.y_m / square;
    along_y[2 * p + 1] -= share + at.x_m * from.x_m / square;
  }
  const auto product = [&](const std::vector<double>& a, const std::vector<double>& b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i)
      for (std::size_t j = 0; j < b.size(); ++j) sum += a[i] * covariance(i, j) * b[j];
    return sum;
  };
  const double xx = product(along_x, along_x);
  const double xy = product(along_x, along_y);
  const double yy = product(along_y, along_y);
  return std::sqrt(0.5 * (xx + yy) + std::hypot(0.5 * (xx - yy), xy));
}

TEST(TapePlan, SaysTheSmallestShiftThatTheAdjustedCovarianceGives) {
  const layout::Plan heptagon = polygon(7);
  const TapePlan plan = tape_plan(heptagon, request());
  const adjustment::Network network = made(heptagon, plan, request().instrument);
  const adjustment::Adjustment adjusted = adjustment::adjust(network);
  // z(0.95) + z(0.80) = 1.644854 + 0.841621, normal tables.
  for (std::size_t corner = 0; corner < 7; ++corner)
    EXPECT_NEAR(plan.corners[corner].smallest_shift_m,
                0.00635 + 2.486475 * worst_sd(network, adjusted.covariance, corner), 1e-6);
}

TEST(TapePlan, ASlipOfTheSizeSaidIsNamedFourTimesInFive) {
  const layout::Plan hexagon = polygon(6);
  const TapePlan plan = tape_plan(hexagon, request());
  std::size_t worst = 0;
  for (std::size_t i = 1; i < plan.pulls.size(); ++i)
    if (plan.pulls[i].smallest_named_m > plan.pulls[worst].smallest_named_m) worst = i;
  std::mt19937_64 random(kSeed);
  std::normal_distribution<double> normal;
  constexpr int kRounds = 300;
  int named = 0;
  for (int k = 0; k < kRounds; ++k) {
    adjustment::Network network = made(hexagon, plan, request().instrument);
    for (readings::Observation& reading : network.observations)
      reading.corrected += scene::kSigma_m * normal(random);
    network.observations[worst].corrected += plan.pulls[worst].smallest_named_m;
    const adjustment::Adjustment adjusted = adjustment::adjust(network);
    std::size_t largest = 0;
    for (std::size_t i = 1; i < adjusted.readings_out.size(); ++i)
      if (std::abs(adjusted.readings_out[i].standardized) >
          std::abs(adjusted.readings_out[largest].standardized))
        largest = i;
    // 3.29: normal, two-sided 0.001.
    if (largest == worst && std::abs(adjusted.readings_out[worst].standardized) > 3.29) ++named;
  }
  EXPECT_GE(named, 0.80 * kRounds - 3.0 * std::sqrt(0.16 * kRounds)) << "seed " << kSeed;
}

TEST(TapePlan, ATriangleNeedsItsPullsTwice) {
  const TapePlan plan = tape_plan(polygon(3), request());
  EXPECT_TRUE(plan.reached);
  std::map<std::set<std::string>, int> times;
  for (const PlannedPull& pull : plan.pulls) ++times[{pull.from, pull.to}];
  int twice = 0;
  for (const auto& [pair, count] : times) {
    EXPECT_LE(count, 2);
    twice += count == 2 ? 1 : 0;
  }
  EXPECT_GT(twice, 0);
}

TEST(TapePlan, KeepsToTheNumberOfPullsThereIsTimeFor) {
  TapePlanRequest asked = request();
  asked.at_most = 14;
  const TapePlan plan = tape_plan(polygon(8), asked);
  EXPECT_EQ(plan.pulls.size(), 14u);
  EXPECT_FALSE(plan.reached);
  EXPECT_FALSE(plan.misses.empty());
}

TEST(TapePlan, DoesNotFillUpAnAllowanceThatIsNotNeeded) {
  TapePlanRequest asked = request();
  asked.at_most = 500;
  EXPECT_EQ(tape_plan(polygon(6), asked).pulls.size(),
            tape_plan(polygon(6), request()).pulls.size());
}

TEST(TapePlan, SaysWhatNoSetOfPullsReaches) {
  // A quarter inch in one reading is never caught by a 2 mm tape.
  TapePlanRequest asked = request();
  asked.slip_m = 0.25 * scene::kInch_m;
  const TapePlan plan = tape_plan(polygon(6), asked);
  EXPECT_FALSE(plan.reached);
  EXPECT_FALSE(plan.pulls.empty());
  ASSERT_FALSE(plan.misses.empty());
  EXPECT_THAT(told_in_english(plan.misses.front()), HasSubstr("A slip of that size"));
  for (const PlannedPull& pull : plan.pulls) EXPECT_GT(pull.smallest_catch_m, asked.slip_m);
}

TEST(TapePlan, GroupsThePullsByWhereTheTapeIsHeld) {
  const TapePlan plan = tape_plan(polygon(12), request());
  std::set<std::string> left;
  std::string hold;
  for (const PlannedPull& pull : plan.pulls) {
    if (pull.from == hold) continue;
    EXPECT_EQ(left.count(pull.from), 0u) << "back to " << pull.from;
    if (!hold.empty()) left.insert(hold);
    hold = pull.from;
  }
  EXPECT_LT(left.size() + 1, 12u);
}

TEST(TapePlan, WalksLessThanAListByLabelsDoes) {
  const layout::Plan octagon = polygon(8);
  const TapePlan plan = tape_plan(octagon, request());
  std::map<std::string, base::Point> at;
  for (const layout::Stake& stake : layout::stakes(octagon)) at[stake.label] = stake.at;
  at["O"] = octagon.center;
  const auto walk = [&](const std::vector<std::pair<std::string, std::string>>& pulls) {
    double sum = 0.0;
    for (std::size_t k = 1; k < pulls.size(); ++k)
      sum += base::distance_m(at[pulls[k - 1].first], at[pulls[k].first]) +
             base::distance_m(at[pulls[k - 1].second], at[pulls[k].second]);
    return sum;
  };
  std::vector<std::pair<std::string, std::string>> ordered;
  std::vector<std::pair<std::string, std::string>> by_label;
  for (const PlannedPull& pull : plan.pulls) {
    ordered.emplace_back(pull.from, pull.to);
    by_label.push_back(std::minmax(pull.from, pull.to));
  }
  std::sort(by_label.begin(), by_label.end());
  EXPECT_NEAR(plan.walk_m, walk(ordered), 1e-9);
  EXPECT_LT(plan.walk_m, walk(by_label));
}

TEST(TapePlan, SidesAloneFixNoCornerAndCatchNothing) {
  std::vector<layout::Tape> sides;
  for (const layout::Tape& tape : layout::check_tapes(polygon(6)))
    if (tape.skip == 1) sides.push_back(tape);
  const TapePlan judged = judged_pulls(polygon(6), request(), sides);
  EXPECT_FALSE(judged.reached);
  for (const PlannedPull& pull : judged.pulls) EXPECT_TRUE(std::isinf(pull.smallest_catch_m));
  for (const PlannedCorner& corner : judged.corners)
    EXPECT_TRUE(std::isinf(corner.smallest_shift_m));
}

TEST(TapePlan, RefusesWhatCannotBeAsked) {
  TapePlanRequest asked = request();
  asked.slip_m = 0.0;
  EXPECT_THROW(tape_plan(polygon(6), asked), base::InputError);
  asked = request();
  asked.shift_m = 0.001;
  EXPECT_THAT(refusal([&] { tape_plan(polygon(6), asked); }),
              HasSubstr("above the corner tolerance"));
  EXPECT_THAT(refusal([&] {
                judged_pulls(polygon(6), request(), {{"A", "Q", 0, 0.0}});
              }),
              HasSubstr("there is no stake \"Q\""));
  EXPECT_THROW(judged_pulls(polygon(6), request(), {{"A", "A", 0, 0.0}}), base::InputError);
}

TEST(TapePlan, StaysWithTheFiguresWhenTheSiteIsTurnedAndShifted) {
  layout::Plan turned = polygon(5);
  turned.center = {30.0, -12.0};
  turned.facing_rad = 1.1;
  const TapePlan here = tape_plan(polygon(5), request());
  const TapePlan there = tape_plan(turned, request());
  EXPECT_EQ(here.pulls.size(), there.pulls.size());
  const TapePlan judged = judged_pulls(turned, request(), as_tapes(here));
  for (std::size_t i = 0; i < here.pulls.size(); ++i)
    EXPECT_NEAR(here.pulls[i].smallest_catch_m, judged.pulls[i].smallest_catch_m, 1e-7);
}

}  // namespace
}  // namespace stakewright::suspects
