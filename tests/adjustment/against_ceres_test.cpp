// Held against Ceres' own covariance and its gradient checker.
#include <ceres/covariance.h>
#include <ceres/gradient_checker.h>
#include <ceres/problem.h>
#include <gtest/gtest.h>

#include "figures.hpp"
#include "reading_cost.hpp"
#include "stakewright/adjustment/adjust.hpp"
#include "stakewright/base/turning.hpp"

namespace stakewright::adjustment {
namespace {

constexpr unsigned kSeed = 55;

/// A length of 5 m with 2 mm, and an angle with 1 minute.
const readings::Observation kTape{4, 7, 0, 5.0, 5.0, 0.002};
readings::Observation angle(double angle_rad) { return {4, 7, 0, angle_rad, angle_rad, 3e-4, 5}; }

// DENSE_SVD with the exact null-space rank is right where there are as many readings as coordinates
// (docs/methods/adjustment.md tells of the cases in which it is wrong without a word).
TEST(AgainstCeres, CovarianceOfAFreeFigureAgrees) {
  std::mt19937 random(kSeed);
  for (const int sides : {5, 8, 12}) {
    Network network = figures::polygon(sides, 3.0, {1.0, -2.0}, 0.1);
    const std::size_t n = network.corner_count;
    const auto truth = figures::staked(network, 0.01, random);
    figures::pull(network, figures::all_pairs(n), truth, 0.003, random);
    const Adjustment ours = adjust(network);
    ASSERT_EQ(ours.status, Status::settled);

    std::vector<std::array<double, 2>> at;
    for (std::size_t p = 0; p < n; ++p) at.push_back({ours.found[p].x_m, ours.found[p].y_m});
    double scale = 0.0;
    double zero = 0.0;
    ceres::Problem problem;
    for (const readings::Observation& o : network.observations)
      problem.AddResidualBlock(new ReadingCost(o), nullptr, at[o.from].data(), at[o.to].data(),
                               &scale, &zero);
    problem.SetParameterBlockConstant(&scale);
    problem.SetParameterBlockConstant(&zero);
    ceres::Covariance::Options options;
    options.algorithm_type = ceres::DENSE_SVD;
    options.null_space_rank = 3;
    ceres::Covariance covariance(options);
    std::vector<const double*> blocks;
    for (const auto& place : at) blocks.push_back(place.data());
    ASSERT_TRUE(covariance.Compute(blocks, &problem));
    for (std::size_t p = 0; p < n; ++p)
      for (std::size_t q = 0; q < n; ++q) {
        std::array<double, 4> block{};
        covariance.GetCovarianceBlock(at[p].data(), at[q].data(), block.data());
        for (std::size_t i = 0; i < 2; ++i)
          for (std::size_t j = 0; j < 2; ++j)
            EXPECT_NEAR(ours.covariance(2 * p + i, 2 * q + j), block[2 * i + j], 1e-13)
                << sides << " sides, " << p << " " << q;
      }
  }
}

TEST(AgainstCeres, WrittenDerivativesOfALengthEqualNumericalOnes) {
  std::mt19937 random(kSeed + 1);
  std::uniform_real_distribution<double> place(-8.0, 8.0);
  for (int round = 0; round < 100; ++round) {
    std::array<double, 2> from = {place(random), place(random)};
    std::array<double, 2> to = {place(random), place(random)};
    double scale = 1e-3 * place(random);
    double zero = 1e-3 * place(random);
    const ReadingCost cost(kTape);
    ceres::NumericDiffOptions options;
    options.ridders_relative_initial_step_size = 1e-3;  // its own, 1e-2, is coarse for near ends
    ceres::GradientChecker checker(
        &cost, static_cast<const std::vector<const ceres::Manifold*>*>(nullptr), options);
    ceres::GradientChecker::ProbeResults results;
    const std::array<double*, 4> parameters = {from.data(), to.data(), &scale, &zero};
    EXPECT_TRUE(checker.Probe(parameters.data(), 1e-8, &results)) << results.error_log;
  }
}

TEST(AgainstCeres, WrittenDerivativesOfAnAngleEqualNumericalOnes) {
  std::mt19937 random(kSeed + 2);
  std::uniform_real_distribution<double> place(-8.0, 8.0);
  for (int round = 0; round < 100; ++round) {
    std::array<double, 2> from = {place(random), place(random)};
    std::array<double, 2> at = {place(random), place(random)};
    std::array<double, 2> to = {place(random), place(random)};
    const double turned_rad = base::turned_rad({at[0], at[1]}, {from[0], from[1]}, {to[0], to[1]});
    double scale = 1e-3;
    double zero = 1e-3;
    const ReadingCost cost(angle(turned_rad + 0.1 * place(random)));
    ceres::NumericDiffOptions options;
    options.ridders_relative_initial_step_size = 1e-4;  // its own, 1e-2, is coarse for near ends
    ceres::GradientChecker checker(
        &cost, static_cast<const std::vector<const ceres::Manifold*>*>(nullptr), options);
    ceres::GradientChecker::ProbeResults results;
    const std::array<double*, 5> parameters = {from.data(), to.data(), at.data(), &scale, &zero};
    EXPECT_TRUE(checker.Probe(parameters.data(), 1e-6, &results)) << results.error_log;
  }
}

TEST(ReadingCost, HasNoValueWhenASightHasNoLength) {
  const ReadingCost cost(angle(1.0));
  const std::array<double, 2> here = {1.0, 2.0};
  const std::array<double, 2> there = {3.0, 2.0};
  const double nothing = 0.0;
  const std::array<const double*, 5> parameters = {here.data(), there.data(), here.data(), &nothing,
                                                   &nothing};
  double residual = 0.0;
  EXPECT_FALSE(cost.Evaluate(parameters.data(), &residual, nullptr));
}

TEST(AgainstCeres, WrittenDerivativeOfAPriorEqualsTheNumericalOne) {
  double value = 3e-4;
  const PriorCost cost(2e-4);
  ceres::NumericDiffOptions options;
  ceres::GradientChecker checker(
      &cost, static_cast<const std::vector<const ceres::Manifold*>*>(nullptr), options);
  ceres::GradientChecker::ProbeResults results;
  const std::array<double*, 1> parameters = {&value};
  EXPECT_TRUE(checker.Probe(parameters.data(), 1e-8, &results)) << results.error_log;
}

TEST(ReadingCost, HasNoValueWhenBothEndsAreAtOnePlace) {
  const ReadingCost cost(kTape);
  const std::array<double, 2> place = {1.0, 2.0};
  const double nothing = 0.0;
  const std::array<const double*, 4> parameters = {place.data(), place.data(), &nothing, &nothing};
  double residual = 0.0;
  EXPECT_FALSE(cost.Evaluate(parameters.data(), &residual, nullptr));
}

}  // namespace
}  // namespace stakewright::adjustment
