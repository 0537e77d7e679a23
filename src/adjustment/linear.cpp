#include "stakewright/adjustment/linear.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

#include "algebra.hpp"
#include "slip_test.hpp"
#include "stakewright/adjustment/quantiles.hpp"

namespace stakewright::adjustment {
namespace {

/// As in the adjustment of a network: less than this shows nothing.
constexpr double kLeastRedundancy = 1e-6;

/// The rows of `which`, each divided by its standard deviation.
LinearModel whitened(const LinearReadings& readings, const std::vector<std::size_t>& which) {
  const std::size_t unknowns = readings.design.cols;
  LinearModel model;
  model.design.resize(as_index(which.size()), as_index(unknowns));
  model.misclosure.resize(as_index(which.size()));
  for (std::size_t i = 0; i < which.size(); ++i) {
    const double sd_m = readings.sd_m[which[i]];
    for (std::size_t j = 0; j < unknowns; ++j)
      model.design(as_index(i), as_index(j)) = readings.design(which[i], j) / sd_m;
    model.misclosure(as_index(i)) = readings.values_m[which[i]] / sd_m;
  }
  return model;
}

std::vector<std::size_t> rows_used(const LinearReadings& readings,
                                   const std::vector<bool>& excluded) {
  std::vector<std::size_t> used;
  for (std::size_t r = 0; r < readings.values_m.size(); ++r)
    if (excluded.empty() || !excluded[r]) used.push_back(r);
  return used;
}

std::optional<Estimate> estimate_of(const LinearModel& model) {
  if (model.design.rows() < model.design.cols()) return std::nullopt;
  return least_squares(model, 0);
}

void fill_test_of_the_set(const Eigen::VectorXd& residuals, LinearAdjustment& result) {
  result.chi_square = residuals.squaredNorm();
  if (result.redundancy == 0) return;
  result.variance_factor = result.chi_square / result.redundancy;
  result.chi_square_limit = chi_square_limit(kSetAlpha, result.redundancy);
  result.passed = result.chi_square <= result.chi_square_limit;
}

/// A reading left out, as the others predict it.
void predict(double computed, double variance, double shift, double value_m, AdjustedReading& out) {
  out.excluded = true;
  out.adjusted = computed;
  out.residual = computed - value_m;
  out.standardized = out.residual / std::sqrt(variance);
  out.redundancy = 1.0;
  out.smallest_catch = shift * std::sqrt(variance);
}

AdjustedReading used_reading(double residual, double share, double sd_m, double shift) {
  AdjustedReading out;
  out.used = true;
  out.residual = residual;
  out.smallest_catch = std::numeric_limits<double>::infinity();
  if (share < kLeastRedundancy) return out;
  out.redundancy = std::min(share, 1.0);
  out.standardized = residual / (sd_m * std::sqrt(out.redundancy));
  out.smallest_catch = shift * sd_m / std::sqrt(out.redundancy);
  return out;
}

void fill_readings(const LinearReadings& readings, const Estimate& estimate,
                   const std::vector<std::size_t>& used, LinearAdjustment& result) {
  const double shift = smallest_shift(shared_alpha(result.readings), kPower);
  for (std::size_t r = 0; r < readings.values_m.size(); ++r) {
    Eigen::RowVectorXd row(as_index(readings.design.cols));
    for (std::size_t j = 0; j < readings.design.cols; ++j) row(as_index(j)) = readings.design(r, j);
    const double computed = row * estimate.correction;
    const double from_unknowns = (row * estimate.cofactor).dot(row);
    const double sd_m = readings.sd_m[r];
    AdjustedReading& out = result.readings_out[r];
    if (!std::binary_search(used.begin(), used.end(), r)) {
      predict(computed, sd_m * sd_m + from_unknowns, shift, readings.values_m[r], out);
      continue;
    }
    out = used_reading(computed - readings.values_m[r], 1.0 - from_unknowns / (sd_m * sd_m), sd_m,
                       shift);
    out.adjusted = computed;
  }
}

}  // namespace

std::optional<LinearAdjustment> adjust(const LinearReadings& readings,
                                       const std::vector<bool>& excluded) {
  assert(readings.design.rows == readings.values_m.size());
  assert(readings.sd_m.size() == readings.values_m.size());
  const std::vector<std::size_t> used = rows_used(readings, excluded);
  const LinearModel model = whitened(readings, used);
  const auto estimate = estimate_of(model);
  if (!estimate) return std::nullopt;
  const std::size_t unknowns = readings.design.cols;
  LinearAdjustment result;
  result.covariance = base::Matrix(unknowns, unknowns);
  for (std::size_t i = 0; i < unknowns; ++i) {
    result.unknowns.push_back(estimate->correction(as_index(i)));
    for (std::size_t j = 0; j < unknowns; ++j)
      result.covariance(i, j) = estimate->cofactor(as_index(i), as_index(j));
  }
  result.readings = static_cast<int>(used.size());
  result.redundancy = result.readings - static_cast<int>(unknowns);
  fill_test_of_the_set(model.misclosure - model.design * estimate->correction, result);
  result.readings_out.resize(readings.values_m.size());
  fill_readings(readings, *estimate, used, result);
  return result;
}

SlipTest weigh_slips(const LinearReadings& readings, double misread) {
  const LinearModel model = whitened(readings, rows_used(readings, {}));
  const auto estimate = estimate_of(model);
  if (!estimate) return {};
  const auto redundancy = static_cast<int>(model.design.rows() - model.design.cols());
  return slip_test(weighed_readings(model, *estimate, readings.sd_m, redundancy), misread);
}

}  // namespace stakewright::adjustment
