// Limits of the tests against printed tables, and the least-squares core against straight lines
// with published answers.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

#include "least_squares.hpp"
#include "stakewright/adjustment/quantiles.hpp"

namespace stakewright::adjustment {
namespace {

// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, lower critical values: chance of
// exceeding 0.90, 0.95, 0.975, 0.99, 0.999.  Three decimals.
TEST(ChiSquareLimit, FollowsTheLowerTableOfNist) {
  const std::array<double, 5> alphas = {0.90, 0.95, 0.975, 0.99, 0.999};
  const std::vector<std::pair<int, std::array<double, 5>>> table = {
      {1, {.016, .004, .001, .000, .000}},       {2, {.211, .103, .051, .020, .002}},
      {3, {.584, .352, .216, .115, .024}},       {4, {1.064, .711, .484, .297, .091}},
      {5, {1.610, 1.145, .831, .554, .210}},     {6, {2.204, 1.635, 1.237, .872, .381}},
      {7, {2.833, 2.167, 1.690, 1.239, .598}},   {8, {3.490, 2.733, 2.180, 1.646, .857}},
      {10, {4.865, 3.940, 3.247, 2.558, 1.479}}, {12, {6.304, 5.226, 4.404, 3.571, 2.214}}};
  for (const auto& [dof, values] : table)
    for (std::size_t i = 0; i < alphas.size(); ++i)
      EXPECT_NEAR(chi_square_limit(alphas[i], dof), values[i], 0.00051) << dof << " " << alphas[i];
}

// Chi-square table of a university (exampapers.nust.na), upper values at 0.10, 0.05, 0.025, 0.01,
// 0.005.  The scan is wrong in two figures, put right here: 11.34487 (it reads 1.34487)
// and 10.59663 (10.5963).
TEST(ChiSquareLimit, FollowsTheUpperTable) {
  const std::array<double, 5> alphas = {0.10, 0.05, 0.025, 0.01, 0.005};
  const std::vector<std::pair<int, std::array<double, 5>>> table = {
      {1, {2.70554, 3.84146, 5.02389, 6.63490, 7.87944}},
      {2, {4.60517, 5.99146, 7.37776, 9.21034, 10.59663}},
      {3, {6.25139, 7.81473, 9.34840, 11.34487, 12.83816}},
      {4, {7.77944, 9.48773, 11.14329, 13.27670, 14.86026}},
      {5, {9.23636, 11.07050, 12.83250, 15.08627, 16.74960}},
      {6, {10.64464, 12.59159, 14.44938, 16.81189, 18.54758}},
      {7, {12.01704, 14.06714, 16.01276, 18.47531, 20.27774}}};
  for (const auto& [dof, values] : table)
    for (std::size_t i = 0; i < alphas.size(); ++i)
      EXPECT_NEAR(chi_square_limit(alphas[i], dof), values[i], 0.00001) << dof << " " << alphas[i];
}

// Computed from the definition to 40 digits, not printed: the limits at 0.001.
TEST(ChiSquareLimit, AtOneInAThousandFollowsItsDefinition) {
  const std::array<double, 10> limits = {10.82757, 13.81551, 16.26624, 18.46683, 20.51501,
                                         22.45774, 24.32189, 26.12448, 27.87716, 29.58830};
  for (std::size_t i = 0; i < limits.size(); ++i)
    EXPECT_NEAR(chi_square_limit(0.001, static_cast<int>(i) + 1), limits[i], 0.00001);
  EXPECT_EQ(chi_square_limit(0.05, 0), 0.0);
}

// W. Baarda, A testing procedure for use in geodetic networks, 1968 (from memory: 3.29 and 4.13);
// the other pairs from the definition z(1 − alpha/2) + z(power).
TEST(SmallestShift, IsTheSumOfTwoNormalQuantiles) {
  EXPECT_NEAR(normal_limit(0.001), 3.290527, 0.000001);
  EXPECT_NEAR(smallest_shift(kReadingAlpha, kPower), 4.132148, 0.000001);
  EXPECT_NEAR(smallest_shift(0.05, 0.80), 2.8016, 0.00005);
  EXPECT_NEAR(smallest_shift(0.01, 0.80), 3.4175, 0.00005);
  EXPECT_NEAR(smallest_shift(0.001, 0.90), 4.5721, 0.00005);
  EXPECT_NEAR(smallest_shift(0.05, 0.95), 3.6048, 0.00005);
  EXPECT_NEAR(smallest_shift(0.01, 0.90), 3.8574, 0.00005);
  EXPECT_NEAR(smallest_shift(0.001, 0.95), 4.9354, 0.00005);
}

TEST(SharedAlpha, IsOneInAThousandUpToFortyReadingsAndSharedBeyond) {
  EXPECT_EQ(shared_alpha(1), 0.001);
  EXPECT_EQ(shared_alpha(40), 0.001);
  EXPECT_NEAR(shared_alpha(80), 0.0005, 1e-18);
  EXPECT_NEAR(400 * shared_alpha(400), 0.04, 1e-15);
}

/// y = y1 + y2·x by the module's own least squares, all readings of unit weight.
LinearModel straight_line(const std::vector<double>& x, const std::vector<double>& y) {
  const Eigen::Index rows = static_cast<Eigen::Index>(x.size());
  LinearModel model{Eigen::MatrixXd::Ones(rows, 2), Eigen::VectorXd(rows)};
  for (Eigen::Index i = 0; i < rows; ++i) {
    model.design(i, 1) = x[static_cast<std::size_t>(i)];
    model.misclosure(i) = y[static_cast<std::size_t>(i)];
  }
  return model;
}

struct Line {
  Estimate estimate;
  double sum_of_squares = 0.0;
  double sd = 0.0;  ///< of a reading, from the residuals
};

Line fit(const LinearModel& model) {
  Line line{*least_squares(model, 0)};
  line.sum_of_squares = (model.misclosure - model.design * line.estimate.correction).squaredNorm();
  line.sd = std::sqrt(line.sum_of_squares / static_cast<double>(model.design.rows() - 2));
  return line;
}

// JCGM 100:2008 (GUM), example H.3, calibration of a thermometer.  Data from the example.  It
// prints y1 = -0.1712(29), y2 = 0.00218(67), r = -0.930, s = 0.0035, b(30) = -0.1494(41) (from
// memory); the longer figures were computed from the data elsewhere.
TEST(StraightLine, OfTheThermometerIsThatOfTheGuide) {
  const std::vector<double> t = {21.521, 22.012, 22.512, 23.003, 23.507, 23.999,
                                 24.513, 25.002, 25.503, 26.010, 26.511};
  const std::vector<double> b = {-.171, -.169, -.166, -.159, -.164, -.165,
                                 -.156, -.157, -.159, -.161, -.160};
  std::vector<double> above_20;
  for (const double degrees : t) above_20.push_back(degrees - 20.0);
  const LinearModel model = straight_line(above_20, b);
  const Line line = fit(model);
  const Eigen::MatrixXd covariance = line.sd * line.sd * line.estimate.cofactor;
  EXPECT_NEAR(line.estimate.correction(0), -0.171204, 5e-7);
  EXPECT_NEAR(line.estimate.correction(1), 0.00218270, 5e-9);
  EXPECT_NEAR(line.sd, 0.0034976, 5e-8);
  EXPECT_NEAR(std::sqrt(covariance(0, 0)), 0.0028776, 5e-8);
  EXPECT_NEAR(std::sqrt(covariance(1, 1)), 0.00066794, 5e-9);
  EXPECT_NEAR(covariance(0, 1) / std::sqrt(covariance(0, 0) * covariance(1, 1)), -0.93043, 5e-6);
  const Eigen::Vector2d at_30(1.0, 10.0);
  EXPECT_NEAR(at_30.dot(line.estimate.correction), -0.14938, 5e-6);
  EXPECT_NEAR(std::sqrt(at_30.dot(covariance * at_30)), 0.0041386, 5e-8);
  EXPECT_NEAR(redundancy_numbers(model.design, line.estimate.cofactor).sum(), 9.0, 1e-9);
}

// NIST Statistical Reference Datasets, Norris: data and certified values.
TEST(StraightLine, OfNorrisHasTheCertifiedValues) {
  const std::vector<std::array<double, 2>> data = {
      {0.1, 0.2},     {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6}, {9.2, 10.1},
      {228.1, 226.5}, {668.5, 666.3}, {998.5, 996.3}, {449.1, 448.6}, {778.9, 777.0},
      {559.2, 558.2}, {0.3, 0.4},     {0.1, 0.6},     {778.1, 775.5}, {668.8, 666.9},
      {339.3, 338.0}, {448.9, 447.5}, {10.8, 11.6},   {557.7, 556.0}, {228.3, 228.1},
      {998.0, 995.8}, {888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3},     {0.6, 0.3},
      {557.6, 556.8}, {339.3, 339.1}, {888.0, 887.2}, {998.5, 999.0}, {778.9, 779.0},
      {10.2, 11.1},   {117.6, 118.3}, {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9},
      {0.2, 0.5}};
  std::vector<double> x;
  std::vector<double> y;
  for (const auto& row : data) {
    y.push_back(row[0]);
    x.push_back(row[1]);
  }
  const Line line = fit(straight_line(x, y));
  EXPECT_NEAR(line.estimate.correction(0), -0.262323073774029, 1e-10);
  EXPECT_NEAR(line.estimate.correction(1), 1.00211681802045, 1e-12);
  EXPECT_NEAR(line.sum_of_squares, 26.6173985294224, 1e-9);
  EXPECT_NEAR(line.sd, 0.884796396144373, 1e-11);
  EXPECT_NEAR(line.sd * std::sqrt(line.estimate.cofactor(0, 0)), 0.232818234301152, 1e-10);
  EXPECT_NEAR(line.sd * std::sqrt(line.estimate.cofactor(1, 1)), 0.000429796848199937, 1e-13);
}

}  // namespace
}  // namespace stakewright::adjustment
