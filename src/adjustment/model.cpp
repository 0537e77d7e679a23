#include "model.hpp"

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
  for (const NetworkPoint& point : network.points) state.at.push_back(point.planned);
  state.scale.assign(network.instruments.size(), 0.0);
  state.zero_m.assign(network.instruments.size(), 0.0);
  return state;
}

readings::Expected expected(const State& state, const readings::Observation& observation) {
  return readings::expected(observation, state.at, state.scale[observation.instrument],
                            state.zero_m[observation.instrument]);
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

readings::Expected fill_row(const Unknowns& unknowns, const State& state,
                            const readings::Observation& observation,
                            Eigen::Ref<Eigen::RowVectorXd> row) {
  const std::size_t instrument = observation.instrument;
  const readings::Expected model = expected(state, observation);
  for (const readings::Answer& answer : model.answers()) {
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
    const readings::Expected computed = fill_row(unknowns, state, observation, row);
    if (!computed.defined) return std::nullopt;
    model.design.row(r) = row / observation.sd;
    model.misclosure(r) =
        observation.difference(observation.corrected, computed.value) / observation.sd;
  }
  if (unknowns.count > unknowns.places)
    add_prior_rows(network, unknowns, state, reading_count, model);
  return model;
}

LinearModel linear_model(const LinearReadings& readings, const std::vector<std::size_t>& which) {
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

std::vector<std::size_t> all_but(const std::vector<std::size_t>& excluded, std::size_t count) {
  std::vector<bool> out(count, false);
  for (const std::size_t i : excluded) out.at(i) = true;
  std::vector<std::size_t> result;
  for (std::size_t i = 0; i < count; ++i)
    if (!out[i]) result.push_back(i);
  return result;
}

}  // namespace stakewright::adjustment
