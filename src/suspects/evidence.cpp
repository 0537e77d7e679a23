#include "evidence.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace stakewright::suspects {
namespace {

/// Displacements under this leave the straight-line model right to a few hundredths of a
/// millimeter at shelter sizes: d²/2R.
constexpr double kStraight_m = 0.010;

/// A bend is settled when no stake moves by more than this between two turns.
constexpr double kSettled_m = 1e-5;
constexpr int kMostBends = 8;

/// A part whose log share lies this far under the best one's no longer matters.
constexpr double kNegligible = 7.0;

/// Combinations of parts summed for one set at the most.
constexpr std::size_t kMostCombinations = 512;

const Candidate& candidate(const Ground& ground, std::size_t cause) {
  return (*ground.catalogue)[cause];
}

/// The Gaussian of some causes with chosen parts.
algebra::Gaussian gaussian(const Ground& ground, const std::vector<double>& projection,
                           const std::vector<std::size_t>& causes,
                           const std::vector<std::size_t>& parts,
                           std::vector<std::size_t>& columns) {
  algebra::Gaussian result;
  columns.clear();
  for (std::size_t c = 0; c < causes.size(); ++c) {
    const Candidate& cause = candidate(ground, causes[c]);
    const Component& part = cause.parts[parts[c]];
    for (std::size_t d = 0; d < cause.dimensions; ++d) {
      result.mean[result.size] = part.mean[d];
      result.sd[result.size] = part.sd;
      result.projection[result.size] = projection[cause.column[d]];
      columns.push_back(cause.column[d]);
      ++result.size;
    }
  }
  for (std::size_t i = 0; i < result.size; ++i)
    for (std::size_t j = 0; j < result.size; ++j)
      result.gram[i][j] = ground.model->gram(columns[i], columns[j]);
  return result;
}

/// What the readings say of one more cause, the others marginalised: its own Gram matrix and
/// projection.
struct Conditional {
  std::array<double, 3> gram{};
  std::array<double, 2> projection{};
};

Conditional conditional(const Ground& ground, const std::vector<double>& projection,
                        const std::vector<std::size_t>& columns, const Posterior& others,
                        const Candidate& cause) {
  const base::Matrix& gram = ground.model->gram;
  Conditional result;
  std::array<std::array<double, kMostDimensions>, 2> cross{};
  for (std::size_t d = 0; d < cause.dimensions; ++d) {
    result.projection[d] = projection[cause.column[d]];
    for (std::size_t i = 0; i < columns.size(); ++i) {
      cross[d][i] = gram(cause.column[d], columns[i]);
      result.projection[d] -= cross[d][i] * others.mean[i];
    }
  }
  const auto reduced = [&](std::size_t a, std::size_t b) {
    double value = gram(cause.column[a], cause.column[b]);
    for (std::size_t i = 0; i < columns.size(); ++i)
      for (std::size_t j = 0; j < columns.size(); ++j)
        value -= cross[a][i] * others.covariance[i][j] * cross[b][j];
    return value;
  };
  result.gram[0] = reduced(0, 0);
  if (cause.dimensions == 2) {
    result.gram[1] = reduced(0, 1);
    result.gram[2] = reduced(1, 1);
  }
  return result;
}

double log_weight(const Conditional& seen, const Candidate& cause, const Component& part) {
  const double ratio =
      cause.dimensions == 1
          ? algebra::log_ratio_of_one(seen.gram[0], seen.projection[0], part.mean[0], part.sd)
          : algebra::log_ratio_of_two(seen.gram, seen.projection, part.mean, part.sd);
  return part.log_share + ratio;
}

std::vector<std::size_t> without(const std::vector<std::size_t>& list, std::size_t position) {
  std::vector<std::size_t> rest = list;
  rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(position));
  return rest;
}

/// Log weight of every part of one cause of the set, the others at their best parts.
std::vector<double> part_weights(const Ground& ground, const Hypothesis& hypothesis,
                                 std::size_t position) {
  std::vector<std::size_t> columns;
  const std::vector<double>& projection = hypothesis.projection_of(*ground.model);
  const Posterior others =
      algebra::posterior(gaussian(ground, projection, without(hypothesis.causes, position),
                                  without(hypothesis.parts, position), columns));
  const Candidate& cause = candidate(ground, hypothesis.causes[position]);
  const Conditional seen = conditional(ground, projection, columns, others, cause);
  std::vector<double> weights;
  for (const Component& part : cause.parts) weights.push_back(log_weight(seen, cause, part));
  return weights;
}

std::size_t best(const std::vector<double>& values) {
  return static_cast<std::size_t>(std::max_element(values.begin(), values.end()) - values.begin());
}

void choose_parts(const Ground& ground, Hypothesis& hypothesis) {
  if (hypothesis.causes.size() < 2) {
    for (std::size_t c = 0; c < hypothesis.causes.size(); ++c)
      hypothesis.parts[c] = best(part_weights(ground, hypothesis, c));
    return;
  }
  constexpr int kSweeps = 2;
  for (int sweep = 0; sweep < kSweeps; ++sweep)
    for (std::size_t c = 0; c < hypothesis.causes.size(); ++c)
      hypothesis.parts[c] = best(part_weights(ground, hypothesis, c));
}

void fit(const Ground& ground, Hypothesis& hypothesis) {
  hypothesis.sizes =
      algebra::posterior(gaussian(ground, hypothesis.projection_of(*ground.model),
                                  hypothesis.causes, hypothesis.parts, hypothesis.columns));
}

using Bend = std::vector<std::pair<std::size_t, double>>;  ///< reading; meters, radians

/// Of the rows with a point that moves.
Bend bend_under(const Ground& ground, const std::vector<base::Point>& moved) {
  Bend bend;
  for (std::size_t i = 0; i < ground.model->rows.size(); ++i) {
    const Row& row = ground.model->rows[i];
    const auto ends = row.planned.answers();
    const bool moves = std::any_of(ends.begin(), ends.end(), [&](const readings::Answer& end) {
      return !(moved[end.point] == base::Point{});
    });
    if (moves) bend.emplace_back(i, bend_of(*ground.network, row, moved));
  }
  return bend;
}

/// Takes the bend c of the lengths under these displacements out of the readings: projection
/// K'W(y - c), and the log-likelihood ratio that c brings by itself, c'Wy - c'Wc/2.
void take_bend_out(const Ground& ground, Hypothesis& hypothesis,
                   const std::vector<base::Point>& moved) {
  const Model& model = *ground.model;
  const Bend bend = bend_under(ground, moved);
  hypothesis.projection = model.projection;
  for (const auto& [i, c] : bend)
    for (std::size_t k = 0; k < model.columns(); ++k)
      hypothesis.projection[k] -= model.gram(i, k) * c;
  // c'Wy - c'Wc/2 = c'W(y + (y - c))/2.
  hypothesis.bend_ratio = 0.0;
  for (const auto& [i, c] : bend)
    hypothesis.bend_ratio += 0.5 * c * (model.projection[i] + hypothesis.projection[i]);
}

void bend_to_rest(const Ground& ground, Hypothesis& hypothesis) {
  hypothesis.projection.clear();
  hypothesis.bend_ratio = 0.0;
  fit(ground, hypothesis);
  std::vector<base::Point> moved = displacements(ground, hypothesis);
  const bool straight = std::all_of(moved.begin(), moved.end(), [](base::Point step) {
    return base::norm_m(step) < kStraight_m;
  });
  if (straight) return;
  for (int turn = 0; turn < kMostBends; ++turn) {
    take_bend_out(ground, hypothesis, moved);
    fit(ground, hypothesis);
    const std::vector<base::Point> next = displacements(ground, hypothesis);
    double most = 0.0;
    for (std::size_t p = 0; p < next.size(); ++p)
      most = std::max(most, base::norm_m(next[p] - moved[p]));
    moved = next;
    if (most < kSettled_m) return;
  }
}

/// The parts of every cause that matter, the best first.
std::vector<std::vector<std::size_t>> parts_that_matter(const Ground& ground,
                                                        const Hypothesis& hypothesis) {
  std::vector<std::vector<std::size_t>> kept(hypothesis.causes.size());
  for (std::size_t c = 0; c < kept.size(); ++c) {
    const std::vector<double> weights = part_weights(ground, hypothesis, c);
    const double most = *std::max_element(weights.begin(), weights.end());
    for (std::size_t p = 0; p < weights.size(); ++p)
      if (weights[p] > most - kNegligible) kept[c].push_back(p);
    std::sort(kept[c].begin(), kept[c].end(),
              [&](std::size_t a, std::size_t b) { return weights[a] > weights[b]; });
  }
  return kept;
}

/// Drops the least parts of the longest list until the sum is short enough.
void limit_combinations(std::vector<std::vector<std::size_t>>& parts) {
  const auto count = [&] {
    std::size_t product = 1;
    for (const auto& list : parts) product *= list.size();
    return product;
  };
  while (count() > kMostCombinations)
    std::max_element(parts.begin(), parts.end(), [](const auto& a, const auto& b) {
      return a.size() < b.size();
    })->pop_back();
}

/// Adds the weight of every combination of the listed parts.  The Gaussian of the best parts is
/// there; only means and standard deviations change.
void add_combinations(const Ground& ground, const Hypothesis& hypothesis,
                      const std::vector<std::vector<std::size_t>>& choices, std::size_t position,
                      std::size_t column, double log_share, algebra::Gaussian& gaussian,
                      algebra::LogSum& sum) {
  if (position == choices.size()) {
    sum.add(log_share + algebra::log_ratio(gaussian));
    return;
  }
  const Candidate& cause = candidate(ground, hypothesis.causes[position]);
  for (const std::size_t choice : choices[position]) {
    const Component& part = cause.parts[choice];
    for (std::size_t d = 0; d < cause.dimensions; ++d) {
      gaussian.mean[column + d] = part.mean[d];
      gaussian.sd[column + d] = part.sd;
    }
    add_combinations(ground, hypothesis, choices, position + 1, column + cause.dimensions,
                     log_share + cause.log_odds + part.log_share, gaussian, sum);
  }
}

double weight_of_all_parts(const Ground& ground, const Hypothesis& hypothesis) {
  std::vector<std::vector<std::size_t>> choices = parts_that_matter(ground, hypothesis);
  limit_combinations(choices);
  std::vector<std::size_t> columns;
  algebra::Gaussian prior = gaussian(ground, hypothesis.projection_of(*ground.model),
                                     hypothesis.causes, hypothesis.parts, columns);
  algebra::LogSum sum;
  add_combinations(ground, hypothesis, choices, 0, 0, hypothesis.bend_ratio, prior, sum);
  return sum.value();
}

}  // namespace

Growth growth(const Ground& ground, const Hypothesis& hypothesis, std::size_t cause) {
  const Candidate& added = candidate(ground, cause);
  const Conditional seen = conditional(ground, hypothesis.projection_of(*ground.model),
                                       hypothesis.columns, hypothesis.sizes, added);
  Growth result;
  algebra::LogSum sum;
  double most = -std::numeric_limits<double>::infinity();
  for (std::size_t p = 0; p < added.parts.size(); ++p) {
    const double weight = log_weight(seen, added, added.parts[p]);
    sum.add(weight);
    if (weight > most) {
      most = weight;
      result.part = p;
    }
  }
  result.log_gain = added.log_odds + sum.value();
  return result;
}

void refine(const Ground& ground, Hypothesis& hypothesis) {
  if (hypothesis.causes.empty()) return;
  choose_parts(ground, hypothesis);
  bend_to_rest(ground, hypothesis);
  if (!hypothesis.projection.empty()) {
    choose_parts(ground, hypothesis);
    bend_to_rest(ground, hypothesis);
  }
  hypothesis.log_weight = weight_of_all_parts(ground, hypothesis);
}

std::vector<double> part_shares(const Ground& ground, const Hypothesis& hypothesis,
                                std::size_t position) {
  std::vector<double> shares = part_weights(ground, hypothesis, position);
  algebra::LogSum sum;
  for (const double weight : shares) sum.add(weight);
  for (double& share : shares) share = std::exp(share - sum.value());
  return shares;
}

Posterior plain_sizes(const Ground& ground, const Hypothesis& hypothesis) {
  std::vector<std::size_t> parts;
  for (const std::size_t index : hypothesis.causes) {
    const std::vector<Component>& list = candidate(ground, index).parts;
    parts.push_back(static_cast<std::size_t>(
        std::max_element(list.begin(), list.end(),
                         [](const Component& a, const Component& b) { return a.sd < b.sd; }) -
        list.begin()));
  }
  std::vector<std::size_t> columns;
  return algebra::posterior(
      gaussian(ground, hypothesis.projection_of(*ground.model), hypothesis.causes, parts, columns));
}

double unexplained(const Ground& ground, const Hypothesis& hypothesis) {
  const Model& model = *ground.model;
  double square = -2.0 * hypothesis.bend_ratio;
  for (std::size_t i = 0; i < model.rows.size(); ++i)
    square += model.projection[i] * model.rows[i].off;
  const std::vector<double>& projection = hypothesis.projection_of(model);
  for (std::size_t a = 0; a < hypothesis.columns.size(); ++a) {
    square -= 2.0 * projection[hypothesis.columns[a]] * hypothesis.sizes.mean[a];
    for (std::size_t b = 0; b < hypothesis.columns.size(); ++b)
      square += hypothesis.sizes.mean[a] * hypothesis.sizes.mean[b] *
                model.gram(hypothesis.columns[a], hypothesis.columns[b]);
  }
  return square;
}

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

}  // namespace stakewright::suspects
