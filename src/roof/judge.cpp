#include "judge.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

#include "plate.hpp"
#include "spread.hpp"
#include "stakewright/algebra/algebra.hpp"

namespace stakewright::roof {

Judge::Judge(const base::Tolerance& tolerance, const Found* found)
    : part_tolerance_m_(tolerance.part_m),
      factor_(found == nullptr ? 0.0 : half_width_factor(tolerance.confidence)),
      found_(found) {}

Figure Judge::figure(const Linear& planned, const Linear& found, std::size_t corner) const {
  if (!has_found()) return {planned.value, {}, {}, {}};
  const auto rows = window_rows(corner, found_->plate.corners.size());
  return figure(planned.value, found.value, variance(found, rows, found_->covariance));
}

Figure Judge::figure(double planned, double found, double variance) const {
  // Rounding may leave a variance of nothing a shade below it.
  return {planned, found, found - planned, factor_ * std::sqrt(std::max(0.0, variance))};
}

Fit Judge::fit(const Figure& figure, double lever) const {
  if (!figure.found) return Fit::pattern;
  const double off = (std::abs(*figure.difference) + *figure.uncertainty) * lever;
  return off <= part_tolerance_m_ ? Fit::pattern : Fit::own;
}

Joint Judge::joint(std::string at, std::string what, const std::vector<Share>& shares) const {
  assert(has_found());
  Joint joint{std::move(at), std::move(what)};
  std::vector<double> gradient(found_->covariance.rows, 0.0);
  for (const auto& share : shares) {
    joint.gap_m += share.lever * (share.found.value - share.planned);
    const auto rows = window_rows(share.corner, found_->plate.corners.size());
    for (std::size_t k = 0; k < rows.size(); ++k)
      gradient[rows[k]] += share.lever * share.found.by[k];
  }
  joint.uncertainty_m =
      factor_ * std::sqrt(std::max(0.0, algebra::variance(gradient, found_->covariance)));
  joint.closes = std::abs(joint.gap_m) + joint.uncertainty_m <= part_tolerance_m_;
  return joint;
}

}  // namespace stakewright::roof
