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
  for (const std::size_t r : readings) taking_part[network.observations[r].instrument] = true;
  unknowns.scale.assign(count, kNotAsked);
  unknowns.zero.assign(count, kNotAsked);
  for (std::size_t i = 0; i < count; ++i) {
    if (!taking_part[i]) continue;
    if (network.instruments[i].scale > 0.0) unknowns.scale[i] = unknowns.count++;
    if (network.instruments[i].zero_m > 0.0) unknowns.zero[i] = unknowns.count++;
  }
  return unknowns;
}

ModelLength fill_row(const Unknowns& unknowns, const State& state,
                     const readings::Observation& observation, Eigen::Ref<Eigen::RowVectorXd> row) {
  const std::size_t instrument = observation.instrument;
  const ModelLength model = model_length(state.place(observation.from), state.place(observation.to),
                                         state.scale[instrument], state.zero_m[instrument]);
  const auto add = [&](std::size_t point, double sign) {
    const Eigen::Index column = unknowns.point[point];
    if (column == kNotAsked) return;
    row(column) = sign * model.by_to.x_m;
    row(column + 1) = sign * model.by_to.y_m;
  };
  add(observation.from, -1.0);
  add(observation.to, 1.0);
  if (!unknowns.scale.empty() && unknowns.scale[instrument] != kNotAsked)
    row(unknowns.scale[instrument]) = model.distance_m;
  if (!unknowns.zero.empty() && unknowns.zero[instrument] != kNotAsked)
    row(unknowns.zero[instrument]) = 1.0;
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
    const ModelLength length = fill_row(unknowns, state, observation, row);
    if (!length.defined) return std::nullopt;
    model.design.row(r) = row / observation.sd;
    model.misclosure(r) = (observation.corrected - length.length_m) / observation.sd;
  }
  if (unknowns.count > unknowns.places)
    add_prior_rows(network, unknowns, state, reading_count, model);
  return model;
}

}  // namespace stakewright::adjustment
