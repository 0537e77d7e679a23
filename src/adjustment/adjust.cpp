#include "stakewright/adjustment/adjust.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "determinacy.hpp"
#include "least_squares.hpp"
#include "settle.hpp"
#include "stakewright/adjustment/linear.hpp"
#include "stakewright/adjustment/quantiles.hpp"
#include "stakewright/base/promise.hpp"
#include "stakewright/base/significant.hpp"
#include "stakewright/base/turning.hpp"

namespace stakewright::adjustment {
namespace {

/// A reading of which less than this shows in its residual counts as not checked at all: its
/// smallest catch would be four thousand standard deviations.
constexpr double kLeastRedundancy = 1e-6;

/// The scale counts as unseen when the readings leave this much of its prior standard deviation.
constexpr double kPracticallyThePrior = 0.95;

/// A reading that changes by more than this (meters, radians), for a meter's motion of the whole
/// figure, depends on where the figure lies.  Rounding is a million times smaller.
constexpr double kDependsOnDatum = 1e-6;

double square(double value) { return value * value; }

void fill_test_of_the_set(double chi_square, Sums& sums) {
  sums.chi_square = chi_square;
  if (sums.redundancy == 0) return;
  sums.variance_factor = chi_square / sums.redundancy;
  sums.chi_square_limit = chi_square_limit(kSetAlpha, sums.redundancy);
  sums.passed = chi_square <= sums.chi_square_limit;
}

/// The smallest catch (minimal detectable bias) of a reading in standard deviations of what would
/// show of it.
double caught_sds(const Sums& sums) { return smallest_shift(shared_alpha(sums.readings), kPower); }

/// One of the readings that took part: `residual` its own, adjusted less corrected.
void fill_used(double residual, double share, double sd, double caught, AdjustedReading& out) {
  out.used = true;
  out.residual = residual;
  if (share < kLeastRedundancy) return;
  out.redundancy = std::min(share, 1.0);
  out.standardized = residual / (sd * std::sqrt(out.redundancy));
  out.smallest_catch = caught * sd / std::sqrt(out.redundancy);
}

/// One left out, as the others predict it: `variance` of the difference.
void fill_predicted(double residual, double variance, double caught, AdjustedReading& out) {
  out.residual = residual;
  out.standardized = residual / std::sqrt(variance);
  out.redundancy = 1.0;
  out.smallest_catch = caught * std::sqrt(variance);
}

/// A line for every reading, those left out marked.
void start_readings(std::size_t count, const std::vector<std::size_t>& excluded, Sums& sums) {
  sums.readings_out.resize(count);
  for (std::size_t r = 0; r < count; ++r) {
    sums.readings_out[r].observation = r;
    sums.readings_out[r].smallest_catch = std::numeric_limits<double>::infinity();
  }
  for (const std::size_t r : excluded) sums.readings_out[r].excluded = true;
}

/// Everything that is known before the sums; what is reported when none can be made.
Adjustment outline(const Network& network, const Determinacy& known, const Unknowns& unknowns,
                   const std::vector<std::size_t>& excluded) {
  Adjustment result;
  result.status = known.loose.empty() ? Status::settled : Status::shape_not_fixed;
  result.loose = known.loose;
  result.readings = static_cast<int>(known.readings.size());
  result.unknowns = static_cast<int>(unknowns.count - known.defect);
  result.free_motions = static_cast<int>(known.defect);
  result.redundancy =
      result.readings + static_cast<int>(unknowns.count - unknowns.places) - result.unknowns;
  result.covariance = base::Matrix(2 * network.points.size(), 2 * network.points.size());
  for (const NetworkPoint& point : network.points) {
    result.found.push_back(point.planned);
    result.place_known.push_back(point.known);
  }
  start_readings(network.observations.size(), excluded, result);
  for (AdjustedReading& reading : result.readings_out)
    reading.adjusted = network.observations[reading.observation].corrected;
  for (const std::size_t r : known.readings) result.readings_out[r].used = true;
  if (known.center_set_aside) result.remarks.push_back({"adjustment.center_left_out"});
  return result;
}

void fill_places(const Unknowns& unknowns, const Fit& fit, Adjustment& result) {
  const std::size_t count = unknowns.point.size();
  for (std::size_t p = 0; p < count; ++p) {
    if (unknowns.point[p] == kNotAsked) continue;
    result.found[p] = fit.state.at[p];
    result.place_known[p] = true;
    for (std::size_t q = 0; q < count; ++q) {
      if (unknowns.point[q] == kNotAsked) continue;
      const auto block = fit.cofactor.block<2, 2>(unknowns.point[p], unknowns.point[q]);
      for (std::size_t i = 0; i < 2; ++i)
        for (std::size_t j = 0; j < 2; ++j)
          result.covariance(2 * p + i, 2 * q + j) = block(as_index(i), as_index(j));
    }
  }
}

/// The reading with its residual; an angle again in [0, 2 pi).
double adjusted(const readings::Observation& observation, double residual) {
  const double value = observation.corrected + residual;
  return observation.is_angle() ? base::within_turn_rad(value) : value;
}

void fill_readings(const Network& network, const Determinacy& known, const Fit& fit,
                   Adjustment& result) {
  const Eigen::VectorXd shares = redundancy_numbers(fit.model.design, fit.cofactor);
  const double caught = caught_sds(result);
  for (std::size_t i = 0; i < known.readings.size(); ++i) {
    const readings::Observation& observation = network.observations[known.readings[i]];
    AdjustedReading& out = result.readings_out[known.readings[i]];
    const double residual = -fit.model.misclosure(as_index(i)) * observation.sd;
    fill_used(residual, shares(as_index(i)), observation.sd, caught, out);
    out.adjusted = adjusted(observation, residual);
  }
}

/// An excluded reading as the others predict it.  Left as it is when they cannot.
void predict(const Network& network, const Unknowns& unknowns, const Fit& fit, Adjustment& result,
             AdjustedReading& out) {
  const readings::Observation& observation = network.observations[out.observation];
  for (const std::size_t point : observation.points())
    if (!result.place_known[point]) return;
  Eigen::RowVectorXd row = Eigen::RowVectorXd::Zero(unknowns.count);
  const readings::Expected model = fill_row(unknowns, fit.state, observation, row);
  if (!model.defined || (row * fit.datum.motions).norm() > kDependsOnDatum) return;
  const readings::Instrument& instrument = network.instruments[observation.instrument];
  double variance = square(observation.sd) + (row * fit.cofactor).dot(row);
  if (unknowns.scale[observation.instrument] == kNotAsked)
    variance += square(instrument.scale * model.by_scale);
  if (unknowns.zero[observation.instrument] == kNotAsked)
    variance += square(instrument.zero_m * model.by_zero);
  fill_predicted(-observation.difference(observation.corrected, model.value), variance,
                 caught_sds(result), out);
  out.adjusted = model.value;
}

void fill_instruments(const Network& network, const Unknowns& unknowns, const Fit& fit,
                      Adjustment& result) {
  for (std::size_t i = 0; i < network.instruments.size(); ++i) {
    if (unknowns.scale[i] == kNotAsked && unknowns.zero[i] == kNotAsked) continue;
    const auto sd = [&](Eigen::Index column) {
      return column == kNotAsked ? 0.0 : std::sqrt(fit.cofactor(column, column));
    };
    const AdjustedInstrument out{i, fit.state.scale[i], sd(unknowns.scale[i]), fit.state.zero_m[i],
                                 sd(unknowns.zero[i])};
    result.instruments.push_back(out);
    if (out.scale_sd > kPracticallyThePrior * network.instruments[i].scale &&
        unknowns.scale[i] != kNotAsked)
      result.remarks.push_back({"adjustment.scale_unseen",
                                {{"instrument", base::Name{network.instruments[i].name}},
                                 {"percent", base::significant(100.0 * out.scale_sd, 2)}}});
  }
}

void give_up(base::Id why, Adjustment& result) {
  result.status = Status::did_not_settle;
  result.passed = false;
  result.remarks.push_back({why});
}

}  // namespace

Adjustment adjust(const Network& network, const std::vector<std::size_t>& excluded) {
  demand_sound(network);
  const auto included = all_but(excluded, network.observations.size());
  const Determinacy known = determinacy(network, included);
  const Unknowns unknowns = all_unknowns(network, known.asked, known.readings);
  Adjustment result = outline(network, known, unknowns, excluded);
  if (included.empty()) result.status = Status::no_readings;
  if (unknowns.places == 0) return result;
  const std::optional<Fit> fit = settle(network, unknowns, known.readings, known.defect);
  if (!fit) {
    give_up("adjustment.no_rest", result);
    return result;
  }
  if (!draws_the_plan(network, known, fit->state)) {
    give_up("adjustment.another_polygon", result);
    return result;
  }
  fill_places(unknowns, *fit, result);
  fill_test_of_the_set(fit->model.misclosure.squaredNorm(), result);
  fill_readings(network, known, *fit, result);
  fill_instruments(network, unknowns, *fit, result);
  for (AdjustedReading& reading : result.readings_out)
    if (reading.excluded) predict(network, unknowns, *fit, result, reading);
  return result;
}

std::optional<LinearAdjustment> adjust(const LinearReadings& readings,
                                       const std::vector<std::size_t>& excluded) {
  const std::size_t count = readings.values_m.size();
  base::promise(readings.design.rows == count && readings.sd_m.size() == count,
                "adjust: a row and a standard deviation for every value");
  const std::vector<std::size_t> used = all_but(excluded, count);
  const LinearModel model = linear_model(readings, used);
  const auto estimate = least_squares(model, 0);
  if (!estimate) return std::nullopt;
  LinearAdjustment result;
  result.covariance = matrix_of(estimate->cofactor);
  result.unknowns.assign(estimate->correction.begin(), estimate->correction.end());
  result.readings = static_cast<int>(used.size());
  result.redundancy = result.readings - static_cast<int>(readings.design.cols);
  fill_test_of_the_set((model.misclosure - model.design * estimate->correction).squaredNorm(),
                       result);
  start_readings(count, excluded, result);
  const LinearModel all = linear_model(readings, all_but({}, count));
  const Eigen::VectorXd shares = redundancy_numbers(all.design, estimate->cofactor);
  const double caught = caught_sds(result);
  for (AdjustedReading& out : result.readings_out) {
    const Eigen::Index row = as_index(out.observation);
    const double sd_m = readings.sd_m[out.observation];
    out.adjusted = all.design.row(row).dot(estimate->correction) * sd_m;
    const double residual = out.adjusted - readings.values_m[out.observation];
    const double computed = square(sd_m) * (1.0 - shares(row));  // variance of `adjusted`
    if (out.excluded)
      fill_predicted(residual, square(sd_m) + computed, caught, out);
    else
      fill_used(residual, shares(row), sd_m, caught, out);
  }
  return result;
}

}  // namespace stakewright::adjustment
