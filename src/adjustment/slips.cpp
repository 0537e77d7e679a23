#include "stakewright/adjustment/slips.hpp"

#include <algorithm>
#include <optional>

#include "algebra.hpp"
#include "model.hpp"
#include "slip_test.hpp"

namespace stakewright::adjustment {
namespace {

/// Slips pull the places found toward them, so the sums are made again without the leading set
/// until it stays the same.  It stays at the first or second pass unless feet are at stake.
constexpr int kMostPasses = 4;

/// The linear model that is weighed, and the readings in it.
struct Case {
  std::vector<std::size_t> readings;  ///< that took part in the sums
  Unknowns unknowns;
  Eigen::Index defect = 0;
};

Case case_of(const Network& network, const Adjustment& adjustment) {
  Case result;
  std::vector<bool> asked(network.points.size(), false);
  for (std::size_t r = 0; r < network.observations.size(); ++r) {
    if (!adjustment.readings_out[r].used) continue;
    result.readings.push_back(r);
    for (const std::size_t point : points_of(network.observations[r]))
      asked[point] = !network.points[point].known;
  }
  result.unknowns = all_unknowns(network, asked, result.readings);
  result.defect = result.unknowns.count - adjustment.unknowns;
  return result;
}

State state_of(const Network& network, const Adjustment& adjustment) {
  State state = planned_state(network);
  if (adjustment.status == Status::did_not_settle) return state;
  for (std::size_t p = 0; p < network.points.size(); ++p)
    state.at[p] = {adjustment.found[p].x_m, adjustment.found[p].y_m};
  for (const AdjustedInstrument& instrument : adjustment.instruments) {
    state.scale[instrument.instrument] = instrument.scale;
    state.zero_m[instrument.instrument] = instrument.zero_m;
  }
  return state;
}

/// Residuals at a state, and the readings they belong to: those with redundancy.
std::optional<WeighedReadings> weighed_at(const Network& network, const Case& c,
                                          const State& state) {
  const auto model = linear_model(network, c.unknowns, state, c.readings);
  if (!model) return std::nullopt;
  const auto estimate = least_squares(*model, c.defect);
  if (!estimate) return std::nullopt;
  std::vector<double> sd;
  for (const std::size_t r : c.readings) sd.push_back(network.observations[r].sd);
  const auto redundancy = static_cast<int>(model->design.rows() - model->design.cols() + c.defect);
  WeighedReadings weighed = weighed_readings(*model, *estimate, sd, redundancy);
  for (const std::size_t row : weighed.weighable)
    weighed.evidence.is_angle.push_back(network.observations[c.readings[row]].is_angle());
  return weighed;
}

/// From rows of the model to observations of the network.
void number_as_the_network(const Case& c, SlipTest& test) {
  const auto renumber = [&](std::vector<std::size_t>& rows) {
    for (std::size_t& row : rows) row = c.readings[row];
  };
  for (SlipSet& set : test.ranked) renumber(set.readings);
  for (auto& group : test.groups) renumber(group);
  renumber(test.excluded);
}

/// Weighs at one state.  False when the state gives no residuals.
bool weigh_at(const Network& network, const Case& c, const State& state, double misread,
              SlipTest& test) {
  const auto weighed = weighed_at(network, c, state);
  if (!weighed) return false;
  test = slip_test(*weighed, misread);
  number_as_the_network(c, test);
  return true;
}

/// The places found without `left_out`; empty when the rest does not give them all.
std::optional<State> state_without(const Network& network, const Adjustment& all,
                                   const std::vector<std::size_t>& left_out) {
  std::vector<bool> excluded;
  for (const AdjustedReading& reading : all.readings_out) excluded.push_back(reading.excluded);
  for (const std::size_t r : left_out) excluded[r] = true;
  const Adjustment again = adjust(network, excluded);
  if (again.status == Status::did_not_settle) return std::nullopt;
  for (std::size_t r = 0; r < network.observations.size(); ++r)
    if (all.readings_out[r].used && !excluded[r] && !again.readings_out[r].used)
      return std::nullopt;
  return state_of(network, again);
}

struct Course {
  SlipTest test;
  bool at_rest = false;  ///< the leading set is the one left out of the sums it was weighed at
};

/// Weighs at a state, leaves the leading set out, weighs again at the places then found, until the
/// same set leads.  `left_out`: what the state was found without; empty when it comes from no
/// readings.
Course weigh_from(const Network& network, const Adjustment& adjustment, const Case& c, State state,
                  std::optional<std::vector<std::size_t>> left_out, double misread) {
  Course course;
  for (int pass = 0; pass < kMostPasses; ++pass) {
    if (!weigh_at(network, c, state, misread, course.test)) return course;
    const std::vector<std::size_t> leading = course.test.ranked.front().readings;
    course.at_rest = left_out && leading == *left_out;
    if (course.at_rest) return course;
    const auto next = state_without(network, adjustment, leading);
    if (!next) return course;
    state = *next;
    left_out = leading;
  }
  return course;
}

}  // namespace

SlipTest weigh_slips(const Network& network, const Adjustment& adjustment, double misread) {
  const Case c = case_of(network, adjustment);
  if (c.readings.empty()) return {};
  const bool settled = adjustment.status != Status::did_not_settle;
  Course course;
  if (settled)
    course = weigh_from(network, adjustment, c, state_of(network, adjustment),
                        std::vector<std::size_t>{}, misread);
  // A slip of feet bends the places found so far that the wrong set may lead there.  Stakes
  // stand nearer to the plan than that.
  if (!course.at_rest || course.test.verdict == SlipVerdict::not_separable) {
    Course from_plan =
        weigh_from(network, adjustment, c, planned_state(network), std::nullopt, misread);
    const bool clearer = from_plan.at_rest && from_plan.test.verdict == SlipVerdict::named;
    if (clearer || !settled) course = std::move(from_plan);
  }
  if (course.test.verdict == SlipVerdict::named && !course.at_rest) {
    course.test.verdict = SlipVerdict::not_separable;
    course.test.excluded.clear();
  }
  return course.test;
}

}  // namespace stakewright::adjustment
