#include "evidence.hpp"

#include <cmath>

#include "stakewright/base/angle.hpp"

namespace stakewright::adjustment {
namespace {

/// Slips come in every size: an eighth taken for a sixteenth, an inch, a decimeter, a foot, the
/// wrong ten feet.  Their prior is a mixture, in equal shares, of normals whose standard deviations
/// go from an inch up by fours.  Between them the density falls roughly as one over the size, as
/// for a quantity of unknown scale.
constexpr std::array<double, 4> kSlipScales_m = {0.0254, 0.1016, 0.4064, 1.6256};

/// The same for an angle: from ten minutes of arc, the coarsest figure of a vernier that is misread
/// for another, up by fours to ten degrees.
constexpr std::array<double, kSlipScales_m.size()> kSlipScales_rad = {
    base::kDegree_rad / 6.0, base::kDegree_rad / 1.5, base::kDegree_rad * 8.0 / 3.0,
    base::kDegree_rad * 32.0 / 3.0};

using Vector = std::array<double, kMostSlips>;
using Square = std::array<Vector, kMostSlips>;

/// A symmetric matrix of the first `size` rows as L·D·Lᵀ: L below the diagonal, D on it.
/// False when a pivot is not above `least` times what stood on the diagonal.
bool factor(Square& matrix, std::size_t size, double least) {
  for (std::size_t i = 0; i < size; ++i) {
    const double diagonal = matrix[i][i];
    for (std::size_t j = 0; j < i; ++j) {
      double product = matrix[i][j];
      for (std::size_t k = 0; k < j; ++k) product -= matrix[i][k] * matrix[j][k] * matrix[k][k];
      matrix[i][i] -= product * product / matrix[j][j];
      matrix[i][j] = product / matrix[j][j];
    }
    if (!(matrix[i][i] > least * diagonal)) return false;
  }
  return true;
}

/// x of L·x = b.
Vector forward(const Square& factored, Vector b, std::size_t size) {
  for (std::size_t i = 0; i < size; ++i)
    for (std::size_t j = 0; j < i; ++j) b[i] -= factored[i][j] * b[j];
  return b;
}

/// x of D·Lᵀ·x = b.
Vector backward(const Square& factored, Vector b, std::size_t size) {
  for (std::size_t i = size; i-- > 0;) {
    b[i] /= factored[i][i];
    for (std::size_t j = i + 1; j < size; ++j) b[i] -= factored[j][i] * b[j];
  }
  return b;
}

/// xᵀ·D⁻¹·x.
double squared(const Square& factored, const Vector& x, std::size_t size) {
  double sum = 0.0;
  for (std::size_t i = 0; i < size; ++i) sum += x[i] * x[i] / factored[i][i];
  return sum;
}

Vector residuals_of(const ResidualEvidence& evidence, const SlipCandidate& set) {
  Vector result{};
  for (std::size_t i = 0; i < set.size; ++i)
    result[i] = evidence.residuals(static_cast<Eigen::Index>(set.members[i]));
  return result;
}

Square cofactor_of(const ResidualEvidence& evidence, const SlipCandidate& set) {
  Square result{};
  for (std::size_t i = 0; i < set.size; ++i)
    for (std::size_t j = 0; j <= i; ++j)
      result[i][j] = evidence.cofactor(static_cast<Eigen::Index>(set.members[i]),
                                       static_cast<Eigen::Index>(set.members[j]));
  return result;
}

/// Meters for a length, radians for an angle.
double slip_scale(const ResidualEvidence& evidence, std::size_t reading, std::size_t scale) {
  const bool angle = !evidence.is_angle.empty() && evidence.is_angle[reading];
  return angle ? kSlipScales_rad[scale] : kSlipScales_m[scale];
}

/// Slips of one scale: ½ wᵀ(C⁻² + M)⁻¹w, |I + C·M·C|, and the slips expected, (C⁻² + M)⁻¹w, in
/// standard deviations.  The evidence over that of no slip is exp(gain) / sqrt(spread).
struct AtScale {
  double gain = 0.0;
  double spread = 1.0;
  Vector slips{};
};

AtScale at_scale(const ResidualEvidence& evidence, const SlipCandidate& set, Square matrix,
                 const Vector& residuals, std::size_t scale) {
  AtScale result;
  for (std::size_t i = 0; i < set.size; ++i) {
    const double prior = slip_scale(evidence, set.members[i], scale) / evidence.sd[set.members[i]];
    matrix[i][i] += 1.0 / (prior * prior);
    result.spread *= prior * prior;
  }
  // M is positive semi-definite and C⁻² is added to it: the pivots are above zero.
  factor(matrix, set.size, 0.0);
  for (std::size_t i = 0; i < set.size; ++i) result.spread *= matrix[i][i];
  const Vector half = forward(matrix, residuals, set.size);
  result.gain = 0.5 * squared(matrix, half, set.size);
  result.slips = backward(matrix, half, set.size);
  return result;
}

using Scales = std::array<AtScale, kSlipScales_m.size()>;

Scales at_all_scales(const ResidualEvidence& evidence, const SlipCandidate& set) {
  const Square cofactor = cofactor_of(evidence, set);
  const Vector residuals = residuals_of(evidence, set);
  Scales result;
  for (std::size_t s = 0; s < result.size(); ++s)
    result[s] = at_scale(evidence, set, cofactor, residuals, s);
  return result;
}

/// Gains grow with the scale of the prior, so the last is the largest.
double share(const Scales& scales, std::size_t s) {
  return std::exp(scales[s].gain - scales.back().gain) / std::sqrt(scales[s].spread);
}

}  // namespace

std::optional<WeighedSet> weigh(const ResidualEvidence& evidence, const SlipCandidate& set,
                                double log_odds, double floor) {
  WeighedSet result{set, 0.0, 0.0};
  if (set.size == 0) return result;
  Square matrix = cofactor_of(evidence, set);
  if (!factor(matrix, set.size, 1.0 - kFullyCorrelated)) return std::nullopt;
  result.explained =
      squared(matrix, forward(matrix, residuals_of(evidence, set), set.size), set.size);
  const double log_prior = static_cast<double>(set.size) * log_odds;
  if (log_prior + 0.5 * result.explained < floor) return std::nullopt;
  const Scales scales = at_all_scales(evidence, set);
  double sum = 0.0;
  for (std::size_t s = 0; s < scales.size(); ++s) sum += share(scales, s);
  result.log_weight =
      log_prior + scales.back().gain + std::log(sum / static_cast<double>(scales.size()));
  return result;
}

std::vector<double> slip_sizes(const ResidualEvidence& evidence, const SlipCandidate& set) {
  const Scales scales = at_all_scales(evidence, set);
  double sum = 0.0;
  std::vector<double> sizes(set.size, 0.0);
  for (std::size_t s = 0; s < scales.size(); ++s) {
    sum += share(scales, s);
    for (std::size_t i = 0; i < set.size; ++i)
      sizes[i] += share(scales, s) * scales[s].slips[i] * evidence.sd[set.members[i]];
  }
  for (double& size : sizes) size /= sum;
  return sizes;
}

}  // namespace stakewright::adjustment
