#include "model.hpp"

#include "stakewright/base/turning.hpp"

namespace stakewright::adjustment {
namespace {

void add_prior_rows(const Network& network, const Unknowns& unknowns, const State& state,
                    Eigen::Index row, LinearModel& model) {
  const auto add = [&](Eigen::Index column, double value, double sd) {
    if (column == kNotAsked) return;
    model.design(row, column) = 1.0 / sd;
    model.misclosure(row) = -value / sd;
    ++row;
  };
  for (std::size_t i = 0; i < network.instruments.size(); ++i) {
    add(unknowns.scale[i], state.scale[i], network.instruments[i].scale);
    add(unknowns.zero[i], state.zero_m[i], network.instruments[i].zero_m);
  }
}

}  // namespace

State planned_state(const Network& network) {
  State state;
  for (const NetworkPoint& point : network.points)
    state.at.push_back({point.planned.x_m, point.planned.y_m});
  state.scale.assign(network.instruments.size(), 0.0);
  state.zero_m.assign(network.instruments.size(), 0.0);
  return state;
}

ModelLength model_length(base::Point from, base::Point to, double scale, double zero_m) {
  ModelLength result;
  result.distance_m = base::distance_m(from, to);
  result.length_m = (1.0 + scale) * result.distance_m + zero_m;
  result.defined = result.distance_m > kSamePlace_m;
  if (result.defined) result.by_to = ((1.0 + scale) / result.distance_m) * (to - from);
  return result;
}

ModelAngle model_angle(base::Point from, base::Point at, base::Point to) {
  ModelAngle result;
  const base::Point back = from - at;
  const base::Point ahead = to - at;
  result.defined = base::norm_m(back) > kSamePlace_m && base::norm_m(ahead) > kSamePlace_m;
  if (!result.defined) return result;
  result.angle_rad = base::turned_rad(at, from, to);
  result.by_from = -1.0 * base::bearing_by_place(back);
  result.by_to = base::bearing_by_place(ahead);
  result.by_at = -1.0 * (result.by_from + result.by_to);
  return result;
}

ModelReading model_reading(const State& state, const readings::Observation& observation) {
  ModelReading result;
  const base::Point from = state.place(observation.from);
  const base::Point to = state.place(observation.to);
  const auto add = [&](std::size_t point, base::Point by) {
    result.answers[result.answer_count++] = {point, by};
  };
  if (observation.at) {
    const ModelAngle angle = model_angle(from, state.place(*observation.at), to);
    result.defined = angle.defined;
    result.value = angle.angle_rad;
    add(observation.from, angle.by_from);
    add(*observation.at, angle.by_at);
    add(observation.to, angle.by_to);
    return result;
  }
  const std::size_t instrument = observation.instrument;
  const ModelLength length =
      model_length(from, to, state.scale[instrument], state.zero_m[instrument]);
  result.defined = length.defined;
  result.value = length.length_m;
  result.by_scale = length.distance_m;
  result.by_zero = 1.0;
  add(observation.from, -1.0 * length.by_to);
  add(observation.to, length.by_to);
  return result;
}

double misfit(const readings::Observation& observation, double computed) {
  const double off = observation.corrected - computed;
  return observation.is_angle() ? base::wrapped_rad(off) : off;
}

std::vector<std::size_t> points_of(const readings::Observation& observation) {
  std::vector<std::size_t> points = {observation.from, observation.to};
  if (observation.at) points.push_back(*observation.at);
  return points;
}

Unknowns place_unknowns(const std::vector<bool>& asked) {
  Unknowns unknowns;
  for (const bool is_asked : asked) {
    unknowns.point.push_back(is_asked ? unknowns.places : kNotAsked);
    if (is_asked) unknowns.places += 2;
  }
  unknowns.count = unknowns.places;
  return unknowns;
}

Unknowns all_unknowns(const Network& network, const std::vector<bool>& asked,
                      const std::vector<std::size_t>& readings) {
  Unknowns unknowns = place_unknowns(asked);
  const std::size_t count = network.instruments.size();
  std::vector<bool> taking_part(count, false);
  for (const std::size_t r : readings)
    if (!network.observations[r].is_angle()) taking_part[network.observations[r].instrument] = true;
  unknowns.scale.assign(count, kNotAsked);
  unknowns.zero.assign(count, kNotAsked);
  for (std::size_t i = 0; i < count; ++i) {
    if (!taking_part[i]) continue;
    if (network.instruments[i].scale > 0.0) unknowns.scale[i] = unknowns.count++;
    if (network.instruments[i].zero_m > 0.0) unknowns.zero[i] = unknowns.count++;
  }
  return unknowns;
}

ModelReading fill_row(const Unknowns& unknowns, const State& state,
                      const readings::Observation& observation,
                      Eigen::Ref<Eigen::RowVectorXd> row) {
  const std::size_t instrument = observation.instrument;
  const ModelReading model = model_reading(state, observation);
  for (std::size_t a = 0; a < model.answer_count; ++a) {
    const Answer& answer = model.answers[a];
    const Eigen::Index column = unknowns.point[answer.point];
    if (column == kNotAsked) continue;
    row(column) = answer.by.x_m;
    row(column + 1) = answer.by.y_m;
  }
  if (!unknowns.scale.empty() && unknowns.scale[instrument] != kNotAsked)
    row(unknowns.scale[instrument]) = model.by_scale;
  if (!unknowns.zero.empty() && unknowns.zero[instrument] != kNotAsked)
    row(unknowns.zero[instrument]) = model.by_zero;
  return model;
}

std::optional<LinearModel> linear_model(const Network& network, const Unknowns& unknowns,
                                        const State& state,
                                        const std::vector<std::size_t>& readings) {
  const Eigen::Index reading_count = as_index(readings.size());
  const Eigen::Index rows = reading_count + unknowns.count - unknowns.places;
  LinearModel model{Eigen::MatrixXd::Zero(rows, unknowns.count), Eigen::VectorXd::Zero(rows)};
  Eigen::RowVectorXd row(unknowns.count);
  for (Eigen::Index r = 0; r < reading_count; ++r) {
    const auto& observation = network.observations[readings[static_cast<std::size_t>(r)]];
    row.setZero();
    const ModelReading computed = fill_row(unknowns, state, observation, row);
    if (!computed.defined) return std::nullopt;
    model.design.row(r) = row / observation.sd;
    model.misclosure(r) = misfit(observation, computed.value) / observation.sd;
  }
  if (unknowns.count > unknowns.places)
    add_prior_rows(network, unknowns, state, reading_count, model);
  return model;
}

}  // namespace stakewright::adjustment
