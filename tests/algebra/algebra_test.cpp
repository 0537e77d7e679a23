// Held against the same figures from whole matrices by Eigen, and against properties.
#include "stakewright/algebra/algebra.hpp"

#include <gtest/gtest.h>

#include <Eigen/Eigenvalues>
#include <Eigen/LU>
#include <cmath>
#include <random>

#include "stakewright/algebra/gaussian.hpp"

namespace stakewright::algebra {
namespace {

using base::Matrix;

constexpr unsigned kSeed = 2026;

Eigen::MatrixXd eigen_of(const Matrix& matrix) {
  Eigen::MatrixXd result(matrix.rows, matrix.cols);
  for (std::size_t i = 0; i < matrix.rows; ++i)
    for (std::size_t j = 0; j < matrix.cols; ++j)
      result(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) = matrix(i, j);
  return result;
}

Matrix at_random(std::size_t rows, std::size_t cols, std::mt19937& random) {
  std::normal_distribution<double> normal;
  Matrix result(rows, cols);
  for (double& value : result.values) value = normal(random);
  return result;
}

Matrix covariance_at_random(std::size_t size, std::mt19937& random) {
  const Matrix root = at_random(size, size + 2, random);
  return product(root, transposed(root));
}

/// Right to 1e-13 of the largest entry, as the header says.
void expect_equal(const Matrix& ours, const Eigen::MatrixXd& theirs) {
  const double largest = theirs.cwiseAbs().maxCoeff();
  EXPECT_LT((eigen_of(ours) - theirs).cwiseAbs().maxCoeff(), 1e-13 * largest);
}

TEST(Algebra, PropagatesACovarianceAsAProductOfThree) {
  std::mt19937 random(kSeed);
  for (int round = 0; round < 20; ++round) {
    const Matrix C = covariance_at_random(12, random);
    const Matrix J = at_random(5, 12, random);
    expect_equal(propagated(J, C), eigen_of(J) * eigen_of(C) * eigen_of(J).transpose());
    std::vector<double> gradient(J.values.begin(), J.values.begin() + 12);
    gradient[3] = 0.0;
    const Eigen::Map<const Eigen::VectorXd> g(gradient.data(), 12);
    EXPECT_NEAR(variance(gradient, C), g.dot(eigen_of(C) * g), 1e-11);
  }
}

TEST(Algebra, InvertsAndKnowsTheDeterminant) {
  std::mt19937 random(kSeed + 1);
  const Matrix C = covariance_at_random(8, random);
  const Inverse inverse = inverse_of_positive(C);
  const Eigen::MatrixXd unit = eigen_of(product(C, inverse.matrix));
  EXPECT_LT((unit - Eigen::MatrixXd::Identity(8, 8)).cwiseAbs().maxCoeff(), 1e-9);
  EXPECT_NEAR(inverse.log_determinant, std::log(eigen_of(C).determinant()), 1e-9);
}

TEST(Algebra, FindsTheAxesOfAnEllipse) {
  std::mt19937 random(kSeed + 2);
  for (int round = 0; round < 50; ++round) {
    const Matrix C = covariance_at_random(4, random);
    const Symmetric block = block_of(C, 1);
    const Axes axes = axes_of(block);
    Eigen::Matrix2d matrix;
    matrix << block.xx, block.xy, block.xy, block.yy;
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d> eigen(matrix);
    EXPECT_NEAR(axes.minor, std::sqrt(eigen.eigenvalues()(0)), 1e-9);
    EXPECT_NEAR(axes.major, std::sqrt(eigen.eigenvalues()(1)), 1e-9);
    const Eigen::Vector2d along(std::cos(axes.angle_rad), std::sin(axes.angle_rad));
    EXPECT_NEAR(along.dot(matrix * along), eigen.eigenvalues()(1), 1e-9);
    EXPECT_NEAR(square_in(block, {along(0), along(1)}), 1.0 / eigen.eigenvalues()(1), 1e-9);
  }
}

/// A datum of some points of a figure: their mean place and turn rest.
struct Case {
  Matrix covariance;
  Matrix motions;
  Matrix conditions;
};

Case six_points(std::mt19937& random) {
  std::vector<base::Point> places;
  const Matrix at = at_random(6, 2, random);
  for (std::size_t i = 0; i < 6; ++i) places.push_back({at(i, 0), at(i, 1)});
  Case result{covariance_at_random(14, random), rigid_motions(places, {0.3, -0.2}), Matrix(12, 3)};
  for (std::size_t row = 0; row < 8; ++row)
    for (std::size_t k = 0; k < 3; ++k) result.conditions(row, k) = result.motions(row, k);
  return result;
}

TEST(Algebra, RefersACovarianceToItsDatum) {
  std::mt19937 random(kSeed + 3);
  for (int round = 0; round < 20; ++round) {
    const Case c = six_points(random);
    const Matrix D = answer_of(c.motions, c.conditions);
    const Matrix ours = referred(c.covariance, c.motions, D);
    const Eigen::MatrixXd G = eigen_of(c.motions);
    const Eigen::MatrixXd B = eigen_of(c.conditions);
    const Eigen::MatrixXd S =
        Eigen::MatrixXd::Identity(12, 12) - G * (B.transpose() * G).inverse() * B.transpose();
    const Eigen::MatrixXd theirs = S * eigen_of(c.covariance).topLeftCorner(12, 12) * S.transpose();
    EXPECT_LT((eigen_of(ours) - theirs).cwiseAbs().maxCoeff(),
              1e-11 * theirs.cwiseAbs().maxCoeff());
    // What the datum holds does not move.
    EXPECT_LT((B.transpose() * eigen_of(ours)).cwiseAbs().maxCoeff(), 1e-10);
  }
}

// From both directions: the pseudo-inverse of a covariance without the motions is its weight freed
// of them.
TEST(Algebra, FreesWeightsOfMotions) {
  std::mt19937 random(kSeed + 4);
  const Case c = six_points(random);
  const Matrix weights = leading(covariance_at_random(14, random), 12, 12);
  const Matrix free = freed(weights, c.motions);
  EXPECT_LT(eigen_of(product(free, c.motions)).cwiseAbs().maxCoeff(), 1e-10);
  const Eigen::MatrixXd G = eigen_of(c.motions);
  const Eigen::MatrixXd W = eigen_of(weights);
  const Eigen::MatrixXd theirs = W - W * G * (G.transpose() * W * G).inverse() * G.transpose() * W;
  EXPECT_LT((eigen_of(free) - theirs).cwiseAbs().maxCoeff(), 1e-10);
}

// Against the covariance of the data: y = U s + e with e ~ N(0, I), so that y ~ N(U m, I + UTTU').
TEST(Gaussian, WeighsSizesAsTheDataTheyMakeDo) {
  std::mt19937 random(kSeed + 5);
  const Eigen::MatrixXd U = eigen_of(at_random(9, 3, random));
  const Eigen::VectorXd y = eigen_of(at_random(9, 1, random));
  Gaussian prior;
  prior.size = 3;
  prior.mean = {0.4, -0.1, 0.0};
  prior.sd = {0.7, 0.0, 2.0};
  for (std::size_t i = 0; i < 3; ++i) {
    const auto column = U.col(static_cast<Eigen::Index>(i));
    prior.projection[i] = column.dot(y);
    for (std::size_t j = 0; j < 3; ++j)
      prior.gram[i][j] = column.dot(U.col(static_cast<Eigen::Index>(j)));
  }
  const Eigen::Vector3d mean(0.4, -0.1, 0.0);
  const Eigen::Vector3d sd(0.7, 0.0, 2.0);
  const Eigen::MatrixXd US = U * sd.asDiagonal();
  const Eigen::MatrixXd C = Eigen::MatrixXd::Identity(9, 9) + US * US.transpose();
  const Eigen::VectorXd off = y - U * mean;
  const double with = -0.5 * off.dot(C.inverse() * off) - 0.5 * std::log(C.determinant());
  EXPECT_NEAR(log_ratio(prior), with + 0.5 * y.squaredNorm(), 1e-11);
  const Posterior found = posterior(prior);
  const Eigen::VectorXd expected = mean + (sd.asDiagonal() * US.transpose()) * (C.inverse() * off);
  for (std::size_t i = 0; i < 3; ++i)
    EXPECT_NEAR(found.mean[i], expected(static_cast<Eigen::Index>(i)), 1e-11);
  const auto explained_by_all = explained(prior, 0.0);
  ASSERT_TRUE(explained_by_all);
  const Eigen::VectorXd projected = U * (U.transpose() * U).inverse() * (U.transpose() * y);
  EXPECT_NEAR(*explained_by_all, projected.squaredNorm(), 1e-11);
}

TEST(LogSum, AddsWeightsThatNoDoubleHolds) {
  LogSum sum;
  sum.add(2000.0);
  sum.add(2000.0 + std::log(2.0));
  sum.add(-2000.0);
  EXPECT_NEAR(sum.value(), 2000.0 + std::log(3.0), 1e-12);
}

}  // namespace
}  // namespace stakewright::algebra
