#include "causes.hpp"

#include <algorithm>
#include <cmath>

#include "stakewright/base/angle.hpp"

namespace stakewright::suspects {
namespace {

/// Chance that an instrument's zero (or scale) is off by more than its figures say.
constexpr double kInstrumentOff = 0.005;

/// Of the chance of a slip: that a row was changed over with the next one, or with any other row.
constexpr double kRowsWithNext = 0.05;
constexpr double kRowsWithAny = 0.05;

/// Of the chance of a stake set wrong: that two neighbors' labels, or a stake's and any other's,
/// were changed over.
constexpr double kLabelsWithNext = 0.04;
constexpr double kLabelsWithAny = 0.04;

/// Rows whose planned lengths, or angles, are nearer than this may change places unnoticed.
constexpr double kSameLength_m = 0.016;
constexpr double kSameAngle_rad = 0.25 * base::kDegree_rad;

/// Pairs of rows taken into the catalogue at the most.
constexpr std::size_t kMostRowPairs = 24;

/// Odds of 0 or of certainty leave nothing to weigh; a chance of more than a half is not "what
/// usually happens".
constexpr double kMostChance = 0.5;

double log_odds(double chance) {
  const double bounded = std::min(chance, kMostChance);
  return std::log(bounded) - std::log1p(-bounded);
}

void add_readings(std::vector<Candidate>& list, const adjustment::Network& network,
                  const Setting& setting) {
  if (setting.staking.misread <= 0.0) return;
  for (std::size_t i = 0; i < network.observations.size(); ++i)
    list.push_back({Cause::What::reading,
                    i,
                    0,
                    {i, 0},
                    1,
                    log_odds(setting.staking.misread),
                    slip_sizes(network, i, setting)});
}

void add_stakes(std::vector<Candidate>& list, const Model& model, const Setting& setting) {
  if (setting.staking.misplaced <= 0.0) return;
  for (std::size_t p = 0; p < model.points; ++p)
    if (model.reached[p])
      list.push_back({Cause::What::stake,
                      p,
                      0,
                      {model.point_column(p), model.point_column(p) + 1},
                      2,
                      log_odds(setting.staking.misplaced),
                      stake_sizes()});
}

void add_instruments(std::vector<Candidate>& list, const Model& model) {
  std::vector<std::size_t> uses(model.instruments, 0);
  std::vector<std::size_t> in_feet_inches(model.instruments, 0);
  for (const Row& row : model.rows) {
    if (row.planned.by_zero == 0.0) continue;
    ++uses[row.seen.instrument];
    if (row.seen.written == base::Units::feet_inches) ++in_feet_inches[row.seen.instrument];
  }
  for (std::size_t k = 0; k < model.instruments; ++k) {
    if (uses[k] < 2) continue;  // one reading's slip says as much
    list.push_back({Cause::What::instrument_zero,
                    k,
                    0,
                    {model.zero_column(k), 0},
                    1,
                    log_odds(kInstrumentOff),
                    zero_sizes(2 * in_feet_inches[k] > uses[k])});
    list.push_back({Cause::What::instrument_scale,
                    k,
                    0,
                    {model.scale_column(k), 0},
                    1,
                    log_odds(kInstrumentOff),
                    scale_sizes()});
  }
}

/// A change too small to be noticed.
bool unnoticed(const Row& row, double change) {
  return std::abs(change) < (row.seen.is_angle() ? kSameAngle_rad : kSameLength_m);
}

/// Log-likelihood ratio of a fixed shift of two readings against none.
double shift_ratio(const Model& model, std::size_t i, std::size_t j, double at_i, double at_j) {
  return model.projection[i] * at_i + model.projection[j] * at_j -
         0.5 * (model.gram(i, i) * at_i * at_i + 2.0 * model.gram(i, j) * at_i * at_j +
                model.gram(j, j) * at_j * at_j);
}

struct RowPair {
  std::size_t first = 0;
  std::size_t second = 0;
  double slip = 0.0;  ///< of the first; the second's is the opposite
  double log_odds = 0.0;
  double score = 0.0;
};

/// Leaves the best `most` pairs, best first.
void keep_best(std::vector<RowPair>& pairs, std::size_t most) {
  const std::size_t kept = std::min(pairs.size(), most);
  std::partial_sort(pairs.begin(), pairs.begin() + static_cast<std::ptrdiff_t>(kept), pairs.end(),
                    [](const RowPair& a, const RowPair& b) { return a.score > b.score; });
  pairs.resize(kept);
}

std::vector<RowPair> likely_row_pairs(const Model& model, double misread) {
  const std::size_t m = model.rows.size();
  std::vector<RowPair> pairs;
  for (std::size_t i = 0; i + 1 < m; ++i) {
    for (std::size_t j = i + 1; j < m; ++j) {
      const Row& row = model.rows[i];
      const Row& other = model.rows[j];
      if (row.seen.is_angle() != other.seen.is_angle()) continue;
      if (unnoticed(row, row.seen.difference(row.planned.value, other.planned.value))) continue;
      // Row i holds what belongs to row j: it is too long by the difference.
      const double slip = row.seen.difference(row.seen.corrected, other.seen.corrected);
      const double ratio = shift_ratio(model, i, j, slip, -slip);
      if (ratio <= 0.0) continue;
      const double share = j == i + 1 ? kRowsWithNext : kRowsWithAny / static_cast<double>(m);
      const double odds = log_odds(misread * share);
      pairs.push_back({i, j, slip, odds, ratio + odds});
    }
    keep_best(pairs, kMostRowPairs);
  }
  return pairs;
}

void add_rows(std::vector<Candidate>& list, const Model& model, const Setting& setting) {
  if (setting.staking.misread <= 0.0) return;
  for (const RowPair& pair : likely_row_pairs(model, setting.staking.misread))
    list.push_back({Cause::What::rows,
                    pair.first,
                    pair.second,
                    {pair.first, pair.second},
                    2,
                    pair.log_odds,
                    {{{pair.slip, -pair.slip}, 0.0, 0.0, SlipKind::any}}});
}

std::size_t renamed(std::size_t point, std::size_t first, std::size_t second) {
  return point == first ? second : point == second ? first : point;
}

readings::Observation renamed(readings::Observation seen, std::size_t first, std::size_t second) {
  seen.from = renamed(seen.from, first, second);
  seen.to = renamed(seen.to, first, second);
  if (seen.at) seen.at = renamed(*seen.at, first, second);
  return seen;
}

/// What the planned lengths and angles change by when two labels change over, for the readings that
/// feel it.
std::vector<std::pair<std::size_t, double>> label_shift(const std::vector<base::Point>& planned,
                                                        const Model& model, std::size_t first,
                                                        std::size_t second) {
  std::vector<base::Point> changed = planned;
  std::swap(changed[first], changed[second]);
  std::vector<std::pair<std::size_t, double>> shift;
  for (std::size_t i = 0; i < model.rows.size(); ++i) {
    const Row& row = model.rows[i];
    const double value = readings::expected(row.seen, changed).value;
    const double change = row.seen.difference(value, row.planned.value);
    if (!unnoticed(row, change)) shift.emplace_back(i, change);
  }
  return shift;
}

}  // namespace

std::vector<Candidate> catalogue(const adjustment::Network& network, const Model& model,
                                 const Setting& setting) {
  std::vector<Candidate> list;
  add_readings(list, network, setting);
  add_stakes(list, model, setting);
  add_instruments(list, model);
  add_rows(list, model, setting);
  return list;
}

std::vector<ChangedLabels> changed_labels(const adjustment::Network& network, const Model& model,
                                          const Setting& setting, std::size_t most) {
  std::vector<ChangedLabels> pairs;
  if (setting.staking.misplaced <= 0.0) return pairs;
  const std::size_t n = network.corner_count;
  const std::vector<base::Point> planned = planned_places(network);
  for (std::size_t p = 0; p < n; ++p)
    for (std::size_t q = p + 1; q < n; ++q) {
      const auto shift = label_shift(planned, model, p, q);
      if (shift.empty()) continue;
      const bool next = q == p + 1 || (p == 0 && q == n - 1);
      ChangedLabels pair{p, q, 0.0, 0.0};
      pair.log_odds = log_odds(setting.staking.misplaced *
                               (next ? kLabelsWithNext : kLabelsWithAny / static_cast<double>(n)));
      for (const auto& [i, change] : shift) {
        pair.log_ratio += model.projection[i] * change;
        for (const auto& [j, other] : shift)
          pair.log_ratio -= 0.5 * change * model.gram(i, j) * other;
      }
      pairs.push_back(pair);
    }
  std::sort(pairs.begin(), pairs.end(), [](const ChangedLabels& a, const ChangedLabels& b) {
    return a.log_ratio + a.log_odds > b.log_ratio + b.log_odds;
  });
  if (pairs.size() > most) pairs.resize(most);
  return pairs;
}

adjustment::Network relabeled(const adjustment::Network& network, std::size_t first,
                              std::size_t second) {
  adjustment::Network result = network;
  for (readings::Observation& seen : result.observations) seen = renamed(seen, first, second);
  return result;
}

}  // namespace stakewright::suspects
