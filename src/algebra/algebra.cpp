#include "stakewright/algebra/algebra.hpp"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <algorithm>
#include <cassert>
#include <cmath>

#include "stakewright/base/promise.hpp"

namespace stakewright::algebra {
namespace {

using base::Matrix;
using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

Eigen::Index as_index(std::size_t i) { return static_cast<Eigen::Index>(i); }

Eigen::Map<const RowMajor> view(const Matrix& matrix) {
  return {matrix.values.data(), as_index(matrix.rows), as_index(matrix.cols)};
}

Matrix matrix_of(const RowMajor& values) {
  Matrix result(static_cast<std::size_t>(values.rows()), static_cast<std::size_t>(values.cols()));
  std::copy(values.data(), values.data() + values.size(), result.values.begin());
  return result;
}

}  // namespace

Matrix product(const Matrix& a, const Matrix& b) {
  base::promise(a.cols == b.rows, "product: columns as rows");
  return matrix_of(view(a) * view(b));
}

Matrix transposed(const Matrix& a) { return matrix_of(view(a).transpose()); }

Matrix leading(const Matrix& a, std::size_t rows, std::size_t cols) {
  base::promise(rows <= a.rows && cols <= a.cols, "leading: within the matrix");
  return matrix_of(view(a).topLeftCorner(as_index(rows), as_index(cols)));
}

Matrix propagated(const Matrix& jacobian, const Matrix& covariance) {
  base::promise(jacobian.cols == covariance.rows && covariance.rows == covariance.cols,
                "propagated: a derivative for every row");
  return matrix_of(view(jacobian) * view(covariance) * view(jacobian).transpose());
}

double variance(const std::vector<double>& gradient, const Matrix& covariance) {
  base::promise(gradient.size() <= covariance.rows && gradient.size() <= covariance.cols,
                "variance: a row for every derivative");
  double sum = 0.0;
  for (std::size_t i = 0; i < gradient.size(); ++i) {
    if (gradient[i] == 0.0) continue;  // most figures touch few coordinates
    for (std::size_t j = 0; j < gradient.size(); ++j)
      sum += gradient[i] * gradient[j] * covariance(i, j);
  }
  return sum;
}

Inverse inverse_of_positive(const Matrix& matrix) {
  base::promise(matrix.rows == matrix.cols, "inverse: a square matrix");
  const Eigen::LLT<RowMajor> factor(view(matrix));
  assert(factor.info() == Eigen::Success);
  RowMajor inverse = RowMajor::Identity(factor.rows(), factor.cols());
  factor.solveInPlace(inverse);
  return {matrix_of(inverse), 2.0 * factor.matrixLLT().diagonal().array().log().sum()};
}

Symmetric block_of(const Matrix& covariance, std::size_t point) {
  const std::size_t x = 2 * point;
  return {covariance(x, x), 0.5 * (covariance(x, x + 1) + covariance(x + 1, x)),
          covariance(x + 1, x + 1)};
}

Axes axes_of(const Symmetric& matrix) {
  const double middle = 0.5 * (matrix.xx + matrix.yy);
  const double half_difference = 0.5 * (matrix.xx - matrix.yy);
  const double reach = std::hypot(half_difference, matrix.xy);
  return {std::sqrt(std::max(0.0, middle + reach)), std::sqrt(std::max(0.0, middle - reach)),
          0.5 * std::atan2(matrix.xy, half_difference)};
}

double square_in(const Symmetric& covariance, base::Point step) {
  const auto [xx, xy, yy] = covariance;
  const double determinant = xx * yy - xy * xy;
  if (!(determinant > 0.0)) return 0.0;
  return (yy * step.x_m * step.x_m - 2.0 * xy * step.x_m * step.y_m + xx * step.y_m * step.y_m) /
         determinant;
}

Matrix rigid_motions(const std::vector<base::Point>& places, base::Point about) {
  Matrix motions(2 * places.size(), 3);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const base::Point swept = base::clockwise(places[i] - about);
    motions(2 * i, 0) = motions(2 * i + 1, 1) = 1.0;
    motions(2 * i, 2) = swept.x_m;
    motions(2 * i + 1, 2) = swept.y_m;
  }
  return motions;
}

Matrix answer_of(const Matrix& motions, const Matrix& conditions) {
  base::promise(motions.rows == conditions.rows && motions.cols == conditions.cols,
                "answer: a condition for every motion");
  const auto S = view(conditions).transpose();
  const RowMajor stopped = S * view(motions);
  return matrix_of(stopped.partialPivLu().solve(S));
}

Matrix freed(const Matrix& weights, const Matrix& motions) {
  const Matrix along = product(weights, motions);
  return matrix_of(view(weights) - view(along) * view(answer_of(motions, along)));
}

// Rows first, then columns: few motions, so few sums; what rests comes out as nothing exactly.
Matrix referred(const Matrix& covariance, const Matrix& motions, const Matrix& answer) {
  base::promise(covariance.rows >= motions.rows && covariance.cols >= motions.rows &&
                    answer.rows == motions.cols && answer.cols == motions.rows,
                "referred: a row for every coordinate");
  const auto size = as_index(motions.rows);
  const auto G = view(motions);
  const auto D = view(answer);
  RowMajor result = view(covariance).topLeftCorner(size, size);
  const RowMajor answers = D * result;
  result -= G * answers;
  const RowMajor across = result * D.transpose();
  result -= across * G.transpose();
  return matrix_of(result);
}

}  // namespace stakewright::algebra
