// The dense sums of the module that are worth a linear-algebra library, behind
// plain functions: Eigen is named in dense.cpp alone.
#pragma once

#include "stakewright/base/matrix.hpp"

namespace stakewright::suspects {

struct Inverse {
  base::Matrix matrix;
  double log_determinant = 0.0;  ///< of the matrix that was inverted
};

/// Inverse of a symmetric positive definite matrix, by Cholesky.
/// An indefinite matrix is a bug of ours (assert).
Inverse inverse_of_positive(const base::Matrix& matrix);

/// a·b.
base::Matrix product(const base::Matrix& a, const base::Matrix& b);

}  // namespace stakewright::suspects
