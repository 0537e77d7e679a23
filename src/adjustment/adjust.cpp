#include "stakewright/adjustment/adjust.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

#include "algebra.hpp"
#include "determinacy.hpp"
#include "plausible.hpp"
#include "settle.hpp"
#include "stakewright/adjustment/quantiles.hpp"
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

Status status_of(const Network& network, const Determinacy& known,
                 const std::vector<bool>& excluded) {
  const auto excluded_count = std::count(excluded.begin(), excluded.end(), true);
  if (static_cast<std::size_t>(excluded_count) == network.observations.size())
    return Status::no_readings;
  return known.loose.empty() ? Status::settled : Status::shape_not_fixed;
}

/// Everything that is known before the sums; what is reported when none can be made.
Adjustment outline(const Network& network, const Determinacy& known, const Unknowns& unknowns,
                   const std::vector<bool>& excluded) {
  Adjustment result;
  result.status = status_of(network, known, excluded);
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
  for (std::size_t r = 0; r < network.observations.size(); ++r) {
    AdjustedReading reading;
    reading.adjusted = network.observations[r].corrected;
    reading.smallest_catch = std::numeric_limits<double>::infinity();
    reading.excluded = !excluded.empty() && excluded[r];
    result.readings_out.push_back(reading);
  }
  for (const std::size_t r : known.readings) result.readings_out[r].used = true;
  if (known.center_set_aside) result.remarks.push_back({"adjustment.center_left_out"});
  return result;
}

void fill_places(const Unknowns& unknowns, const Fit& fit, Adjustment& result) {
  const std::size_t count = unknowns.point.size();
  for (std::size_t p = 0; p < count; ++p) {
    if (unknowns.point[p] == kNotAsked) continue;
    result.found[p] = fit.state.place(p);
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

void fill_test_of_the_set(const Fit& fit, Adjustment& result) {
  result.chi_square = fit.model.misclosure.squaredNorm();
  if (result.redundancy == 0) return;
  result.variance_factor = result.chi_square / result.redundancy;
  result.chi_square_limit = chi_square_limit(kSetAlpha, result.redundancy);
  result.passed = result.chi_square <= result.chi_square_limit;
}

/// The reading with its residual; an angle again in [0, 2 pi).
double adjusted(const readings::Observation& observation, double residual) {
  const double value = observation.corrected + residual;
  return observation.is_angle() ? base::within_turn_rad(value) : value;
}

void fill_readings(const Network& network, const Determinacy& known, const Fit& fit,
                   Adjustment& result) {
  const Eigen::VectorXd shares = redundancy_numbers(fit.model.design, fit.cofactor);
  const double shift = smallest_shift(shared_alpha(result.readings), kPower);
  for (std::size_t i = 0; i < known.readings.size(); ++i) {
    const std::size_t r = known.readings[i];
    const readings::Observation& observation = network.observations[r];
    AdjustedReading& out = result.readings_out[r];
    out.residual = -fit.model.misclosure(as_index(i)) * observation.sd;
    out.adjusted = adjusted(observation, out.residual);
    out.redundancy = std::clamp(shares(as_index(i)), 0.0, 1.0);
    if (out.redundancy < kLeastRedundancy) {
      out.redundancy = 0.0;
      continue;
    }
    out.standardized = out.residual / (observation.sd * std::sqrt(out.redundancy));
    out.smallest_catch = shift * observation.sd / std::sqrt(out.redundancy);
  }
}

double square(double value) { return value * value; }

/// An excluded reading as the others predict it.  Left as it is when they cannot.
void predict(const Network& network, const Unknowns& unknowns, const Fit& fit, std::size_t r,
             Adjustment& result) {
  const readings::Observation& observation = network.observations[r];
  const std::vector<std::size_t> points = points_of(observation);
  if (std::any_of(points.begin(), points.end(),
                  [&](std::size_t p) { return !result.place_known[p]; }))
    return;
  Eigen::RowVectorXd row = Eigen::RowVectorXd::Zero(unknowns.count);
  const ModelReading model = fill_row(unknowns, fit.state, observation, row);
  if (!model.defined || (row * fit.datum.motions).norm() > kDependsOnDatum) return;
  const readings::Instrument& instrument = network.instruments[observation.instrument];
  double variance = square(observation.sd) + (row * fit.cofactor).dot(row);
  if (unknowns.scale[observation.instrument] == kNotAsked)
    variance += square(instrument.scale * model.by_scale);
  if (unknowns.zero[observation.instrument] == kNotAsked)
    variance += square(instrument.zero_m * model.by_zero);
  AdjustedReading& out = result.readings_out[r];
  out.adjusted = model.value;
  out.residual = -misfit(observation, model.value);
  out.standardized = out.residual / std::sqrt(variance);
  out.redundancy = 1.0;
  out.smallest_catch = smallest_shift(shared_alpha(result.readings), kPower) * std::sqrt(variance);
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

Adjustment adjust(const Network& network, const std::vector<bool>& excluded) {
  assert(excluded.empty() || excluded.size() == network.observations.size());
  const Determinacy known = determinacy(network, excluded);
  const Unknowns unknowns = all_unknowns(network, known.asked, known.readings);
  Adjustment result = outline(network, known, unknowns, excluded);
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
  fill_test_of_the_set(*fit, result);
  fill_readings(network, known, *fit, result);
  fill_instruments(network, unknowns, *fit, result);
  for (std::size_t r = 0; r < network.observations.size(); ++r)
    if (result.readings_out[r].excluded) predict(network, unknowns, *fit, r, result);
  return result;
}

}  // namespace stakewright::adjustment
