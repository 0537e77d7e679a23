// The dense sums that several modules share: products, the propagation of covariances, the axes of
// a place's uncertainty, and the change of datum.
//
// Covariances of places are of order x0 y0 x1 y1 …  Entries come out right to 1e-13 of the largest
// one (`Algebra.*` in tests/algebra).  Formulas: docs/methods/adjustment.md.
#pragma once

#include <cstddef>
#include <vector>

#include "stakewright/base/matrix.hpp"
#include "stakewright/base/point.hpp"

namespace stakewright::algebra {

/// a·b.
base::Matrix product(const base::Matrix& a, const base::Matrix& b);

base::Matrix transposed(const base::Matrix& a);

/// The first rows and columns.
base::Matrix leading(const base::Matrix& a, std::size_t rows, std::size_t cols);

/// Covariance of J·e where e has covariance C: J·C·Jᵀ (law of propagation of covariances).
base::Matrix propagated(const base::Matrix& jacobian, const base::Matrix& covariance);

/// Variance of a figure by its derivatives: gᵀ·C·g.  A covariance of more entries than `gradient`
/// counts by its first ones.
double variance(const std::vector<double>& gradient, const base::Matrix& covariance);

struct Inverse {
  base::Matrix matrix;
  double log_determinant = 0.0;  ///< of the matrix that was inverted
};

/// Inverse of a symmetric positive definite matrix, by Cholesky.
/// An indefinite matrix is a bug of ours (assert).
Inverse inverse_of_positive(const base::Matrix& matrix);

/// A symmetric 2 x 2 matrix, such as the covariance of one place.
struct Symmetric {
  double xx = 0.0;
  double xy = 0.0;
  double yy = 0.0;
};

/// The block of one point in a covariance of places.
Symmetric block_of(const base::Matrix& covariance, std::size_t point);

/// Roots of the eigenvalues: of a covariance the half axes of the standard error ellipse.  Rounding
/// below zero counts as zero.
struct Axes {
  double major = 0.0;
  double minor = 0.0;
  double angle_rad = 0.0;  ///< of the major axis, from x toward y
};

Axes axes_of(const Symmetric& matrix);

/// stepᵀ·C⁻¹·step for one place; 0 where C is not positive, as for a place that is the datum
/// itself.
double square_in(const Symmetric& covariance, base::Point step);

/// Two shifts and the clockwise turn about a place, one a column: how each coordinate goes with
/// them.
base::Matrix rigid_motions(const std::vector<base::Point>& places, base::Point about);

/// How motions G that change no reading answer to a movement, when conditions Sᵀ·(movement) = 0 say
/// what rests: D = (SᵀG)⁻¹Sᵀ.  With S = W·G it is least squares of the weights W.
base::Matrix answer_of(const base::Matrix& motions, const base::Matrix& conditions);

/// Weights W of figures that may be off by any amount of the motions: W − W·G·(GᵀWG)⁻¹·Gᵀ·W.
base::Matrix freed(const base::Matrix& weights, const base::Matrix& motions);

/// A covariance referred to the datum that rests (S-transformation): (I − G·D)·C·(I − G·D)ᵀ.
/// `covariance` may have more rows than the motions; those are left out.
/// Source: W. Baarda, S-transformations and criterion matrices, 1973 (from memory).
base::Matrix referred(const base::Matrix& covariance, const base::Matrix& motions,
                      const base::Matrix& answer);

}  // namespace stakewright::algebra
