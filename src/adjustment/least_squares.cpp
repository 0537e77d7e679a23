#include "least_squares.hpp"

#include <Eigen/Eigenvalues>
#include <Eigen/SVD>
#include <algorithm>

namespace stakewright::adjustment {
namespace {

/// Eigenvalues of a normal matrix below this share of the largest one are rounding:
/// doubles carry 1e-16 of it, times the few hundred terms of a sum.
constexpr double kRoundingOfNormals = 1e-13;

Eigen::VectorXd unit_column_factors(const Eigen::MatrixXd& design) {
  Eigen::VectorXd factors = design.colwise().norm();
  return factors.unaryExpr([](double norm) { return norm > 0.0 ? 1.0 / norm : 1.0; });
}

}  // namespace

NullSpace null_space(const Eigen::MatrixXd& design, double weakest) {
  const Eigen::Index cols = design.cols();
  // Rows of zeros change nothing, and give the decomposition its full set of right vectors.
  Eigen::MatrixXd padded = Eigen::MatrixXd::Zero(std::max(design.rows(), cols), cols);
  padded.topRows(design.rows()) = design;
  const Eigen::JacobiSVD<Eigen::MatrixXd> svd(padded, Eigen::ComputeThinV);
  const Eigen::VectorXd& singular = svd.singularValues();
  const double limit = weakest * (cols > 0 ? singular(0) : 0.0);
  Eigen::Index rank = 0;
  while (rank < cols && singular(rank) > limit) ++rank;
  const bool sees_something = cols > 0 && singular(0) > 0.0;
  return {svd.matrixV().rightCols(cols - rank),
          rank < cols && sees_something ? singular(rank) / singular(0) : 0.0};
}

std::optional<Estimate> least_squares(const LinearModel& model, Eigen::Index defect) {
  if (model.design.rows() < model.design.cols() - defect) return std::nullopt;
  const Eigen::VectorXd factors = unit_column_factors(model.design);
  const Eigen::MatrixXd scaled = model.design * factors.asDiagonal();
  const Eigen::Index count = scaled.cols();
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(scaled.transpose() * scaled);
  if (eigen.info() != Eigen::Success) return std::nullopt;
  const Eigen::Index rank = count - defect;
  const Eigen::VectorXd values = eigen.eigenvalues().tail(rank);
  if (rank > 0 && values(0) < kRoundingOfNormals * values(rank - 1)) return std::nullopt;
  const Eigen::MatrixXd vectors = factors.asDiagonal() * eigen.eigenvectors().rightCols(rank);
  Estimate estimate;
  estimate.cofactor = vectors * values.cwiseInverse().asDiagonal() * vectors.transpose();
  estimate.correction = estimate.cofactor * (model.design.transpose() * model.misclosure);
  return estimate;
}

Eigen::VectorXd redundancy_numbers(const Eigen::MatrixXd& design, const Eigen::MatrixXd& cofactor) {
  const Eigen::VectorXd leverage = (design * cofactor).cwiseProduct(design).rowwise().sum();
  return Eigen::VectorXd::Ones(design.rows()) - leverage;
}

Eigen::MatrixXd least_changed(const Eigen::MatrixXd& matrix, Eigen::Index count) {
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(matrix.transpose() * matrix);
  return eigen.eigenvectors().leftCols(count);
}

base::Matrix matrix_of(const Eigen::MatrixXd& values) {
  base::Matrix result(static_cast<std::size_t>(values.rows()),
                      static_cast<std::size_t>(values.cols()));
  for (std::size_t row = 0; row < result.rows; ++row)
    for (std::size_t col = 0; col < result.cols; ++col)
      result(row, col) = values(as_index(row), as_index(col));
  return result;
}

Eigen::MatrixXd eigen_of(const base::Matrix& matrix) {
  Eigen::MatrixXd result(as_index(matrix.rows), as_index(matrix.cols));
  for (std::size_t row = 0; row < matrix.rows; ++row)
    for (std::size_t col = 0; col < matrix.cols; ++col)
      result(as_index(row), as_index(col)) = matrix(row, col);
  return result;
}

}  // namespace stakewright::adjustment
