#include "bend.hpp"

#include <algorithm>
#include <utility>

namespace stakewright::suspects {
namespace {

using Bend = std::vector<std::pair<std::size_t, double>>;  ///< reading; meters, radians

/// True value under the displacements, less the planned one and its straight-line change.
Bend bend_of(const Ground& ground, const std::vector<base::Point>& moved) {
  Bend bend;
  for (std::size_t i = 0; i < ground.model->rows.size(); ++i) {
    const Row& row = ground.model->rows[i];
    const bool moves =
        std::any_of(row.ends.begin(), row.ends.begin() + static_cast<std::ptrdiff_t>(row.end_count),
                    [&](const End& end) { return !(moved[end.point] == base::Point{}); });
    if (!moves) continue;
    const double value = value_with(*ground.network, row, moved);
    bend.emplace_back(i, difference(row, value, row.planned) - straight_change(row, moved));
  }
  return bend;
}

}  // namespace

std::vector<base::Point> displacements(const Ground& ground, const Hypothesis& hypothesis) {
  std::vector<base::Point> moved(ground.model->points);
  std::size_t column = 0;
  for (const std::size_t index : hypothesis.causes) {
    const Candidate& cause = (*ground.catalogue)[index];
    if (cause.what == Cause::What::stake)
      moved[cause.index] = {hypothesis.sizes.mean[column], hypothesis.sizes.mean[column + 1]};
    column += cause.dimensions;
  }
  return moved;
}

void take_bend_out(const Ground& ground, Hypothesis& hypothesis,
                   const std::vector<base::Point>& moved) {
  const Model& model = *ground.model;
  const Bend bend = bend_of(ground, moved);
  hypothesis.projection = model.projection;
  for (const auto& [i, c] : bend)
    for (std::size_t k = 0; k < model.columns(); ++k)
      hypothesis.projection[k] -= model.gram(i, k) * c;
  // c'Wy - c'Wc/2 = c'W(y + (y - c))/2.
  hypothesis.bend_ratio = 0.0;
  for (const auto& [i, c] : bend)
    hypothesis.bend_ratio += 0.5 * c * (model.projection[i] + hypothesis.projection[i]);
}

}  // namespace stakewright::suspects
