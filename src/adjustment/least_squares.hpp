// The matrix decompositions of the module, kept in one source because they are slow to compile.
#pragma once

#include <Eigen/Core>
#include <optional>

#include "model.hpp"

namespace stakewright::adjustment {

/// Orthonormal motions that change the rows of a design matrix next to nothing.
struct NullSpace {
  Eigen::MatrixXd motions;  ///< right singular vectors, one a column
  double seen = 0.0;  ///< how much the rows still see of them, as a share of the best-seen motion
};

/// Those seen less than `weakest` of the best-seen motion, by singular values.
NullSpace null_space(const Eigen::MatrixXd& design, double weakest);

/// Least squares with a known number of unknowable motions.
struct Estimate {
  Eigen::VectorXd correction;  ///< of the unknowns
  Eigen::MatrixXd cofactor;    ///< a symmetric generalized inverse of the normal matrix
};

/// Columns are brought to unit length first, so that meters and scales may stand side by side.
/// With `defect` above 0 the result is one of many: refer it to a datum.
/// Empty when the rest of the normal matrix is singular to working precision.
std::optional<Estimate> least_squares(const LinearModel& model, Eigen::Index defect);

/// Share of an error in each row that shows in that row's residual: 1 − diagonal of A·Q·Aᵀ.
Eigen::VectorXd redundancy_numbers(const Eigen::MatrixXd& design, const Eigen::MatrixXd& cofactor);

/// The `count` unit vectors, one a column, that `matrix` changes least.
Eigen::MatrixXd least_changed(const Eigen::MatrixXd& matrix, Eigen::Index count);

base::Matrix matrix_of(const Eigen::MatrixXd& values);
Eigen::MatrixXd eigen_of(const base::Matrix& matrix);

}  // namespace stakewright::adjustment
