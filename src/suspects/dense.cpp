#include "dense.hpp"

#include <Eigen/Cholesky>
#include <cassert>
#include <cmath>

namespace stakewright::suspects {
namespace {

using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

Eigen::Map<const RowMajor> view(const base::Matrix& matrix) {
  return {matrix.values.data(), static_cast<Eigen::Index>(matrix.rows),
          static_cast<Eigen::Index>(matrix.cols)};
}

Eigen::Map<RowMajor> view(base::Matrix& matrix) {
  return {matrix.values.data(), static_cast<Eigen::Index>(matrix.rows),
          static_cast<Eigen::Index>(matrix.cols)};
}

}  // namespace

Inverse inverse_of_positive(const base::Matrix& matrix) {
  assert(matrix.rows == matrix.cols);
  Inverse inverse{base::Matrix(matrix.rows, matrix.cols), 0.0};
  const Eigen::LLT<RowMajor> factor(view(matrix));
  assert(factor.info() == Eigen::Success);
  auto columns = view(inverse.matrix);
  columns.setIdentity();
  factor.solveInPlace(columns);
  for (Eigen::Index i = 0; i < columns.rows(); ++i)
    inverse.log_determinant += 2.0 * std::log(factor.matrixLLT()(i, i));
  return inverse;
}

base::Matrix product(const base::Matrix& a, const base::Matrix& b) {
  assert(a.cols == b.rows);
  base::Matrix result(a.rows, b.cols);
  view(result).noalias() = view(a) * view(b);
  return result;
}

}  // namespace stakewright::suspects
