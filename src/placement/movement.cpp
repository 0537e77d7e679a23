#include "stakewright/placement/movement.hpp"

#include <algorithm>
#include <cmath>

#include "congruence.hpp"
#include "laying.hpp"
#include "stakewright/base/promise.hpp"

namespace stakewright::placement {
namespace {

using base::Point;
using Indices = std::vector<std::size_t>;

// Both coordinates of a stake.
constexpr int kPlane = 2;

bool has(const Indices& list, std::size_t index) {
  return std::find(list.begin(), list.end(), index) != list.end();
}

struct Comparing {
  const TwoRounds& rounds;
  const MovementLevel& level;
  Significance significance;
  Indices measured;
  Indices held;  // measured, and fitting each other

  [[nodiscard]] double alpha() const { return 1.0 - level.confidence; }
};

// Held stakes that do not fit each other any more hold nothing.
void take_hold(Comparing& comparing, Movement& result) {
  const TwoRounds& rounds = comparing.rounds;
  if (rounds.tied) return;
  for (const std::size_t stake : rounds.hold) {
    if (rounds.measured[stake]) comparing.held.push_back(stake);
  }
  if (comparing.held.size() < 2) return;
  const Congruence found = congruence(rounds, comparing.held);
  const double statistic = comparing.significance.statistic(found.form);
  result.hold_moved = statistic > comparing.significance.limit(found.freedom, comparing.alpha());
  if (result.hold_moved) comparing.held.clear();
}

void test_all(const Comparing& comparing, Movement& result) {
  const Significance& significance = comparing.significance;
  const Congruence found = congruence(comparing.rounds, comparing.measured);
  result.freedom = found.freedom;
  result.statistic = significance.statistic(found.form);
  result.limit = significance.limit(found.freedom, comparing.alpha());
  result.by_noise = significance.by_noise(result.statistic, found.freedom);
  result.shown = result.statistic > result.limit;
}

// What the movements are referred to.
Datum datum_of(const Comparing& comparing, const Indices& stable) {
  if (comparing.rounds.tied) return {};
  const Indices& ground = stable.empty() ? comparing.measured : stable;
  if (comparing.held.empty()) return {ground, ground};
  return {comparing.held, comparing.held.size() > 1 ? comparing.held : ground};
}

// Chances of the sets relative to one another: exp(-statistic / 2), the densities of the
// differences they leave, their dimensions being equal.
std::vector<double> chances_of(const std::vector<StableSet>& sets) {
  std::vector<double> chances;
  double sum = 0.0;
  for (const StableSet& set : sets) {
    chances.push_back(std::exp(-0.5 * (set.statistic - sets.front().statistic)));
    sum += chances.back();
  }
  for (double& chance : chances) chance /= sum;
  return chances;
}

void find_ground(const Comparing& comparing, Movement& result) {
  if (!result.shown) {
    result.stable = comparing.measured;
    return;
  }
  const StableSets found = stable_sets(comparing.rounds, comparing.measured, comparing.held,
                                       comparing.significance, comparing.alpha());
  result.proven = found.proven;
  if (found.sets.empty()) return;
  const std::vector<double> chances = chances_of(found.sets);
  result.stable = found.sets.front().stakes;
  for (std::size_t k = 0; k < found.sets.size(); ++k) {
    if (k > 0) result.alternatives.push_back(found.sets[k].stakes);
    for (const std::size_t stake : comparing.measured) {
      if (!has(found.sets[k].stakes, stake)) result.stakes[stake].chance += chances[k];
    }
  }
}

void add_figures(const Comparing& comparing, Movement& result) {
  const TwoRounds& rounds = comparing.rounds;
  const Survey survey = laid_over(rounds);
  const Rigid rigid = fit(survey, result.datum);
  const base::Matrix covariance =
      rounds.tied ? rounds.covariance : deviation_covariance(survey, rigid, result.datum);
  const double factor_sd = std::sqrt(rounds.redundancy > 0 ? rounds.variance_factor : 1.0);
  for (const std::size_t i : comparing.measured) {
    StakeMovement& stake = result.stakes[i];
    const Point moved = rounds.after[i] - laid(rigid, rounds.before[i]);
    const Off seen = off_along(rounds.planned[i] - rounds.center, moved);
    stake.outward_m = seen.outward_m;
    stake.sideways_m = seen.sideways_m;
    stake.distance_m = base::norm_m(moved);
    stake.ellipse = ellipse_of(covariance, i, comparing.level.confidence);
    stake.ellipse.major_m *= factor_sd;
    stake.ellipse.minor_m *= factor_sd;
    const double statistic = comparing.significance.statistic(
        algebra::square_in(algebra::block_of(covariance, i), moved));
    stake.by_noise = comparing.significance.by_noise(statistic, kPlane);
  }
}

void add_smallest_shown(const Comparing& comparing, Movement& result) {
  const double needed = comparing.significance.non_centrality(result.freedom, comparing.alpha(),
                                                              comparing.level.power);
  const auto gains = sensitivity(comparing.rounds, comparing.measured);
  for (std::size_t k = 0; k < gains.size(); ++k) {
    const double least = algebra::axes_of(gains[k]).minor;
    const double worst = comparing.significance.statistic(least * least);
    result.stakes[comparing.measured[k]].smallest_shown_m = std::sqrt(needed / worst);
  }
}

// A stake moved when it is surely among those that did, and by more than noise would show in any
// of so many stakes (Bonferroni).
Moved judged(const Comparing& comparing, const Movement& result, std::size_t i) {
  if (!result.shown) return Moved::no;
  if (result.stable.empty()) return Moved::undecided;
  const StakeMovement& stake = result.stakes[i];
  if (stake.chance <= comparing.alpha()) return Moved::no;
  const auto tested = static_cast<double>(comparing.measured.size());
  const bool beyond_noise = stake.by_noise * tested <= comparing.alpha();
  return stake.chance >= comparing.level.confidence && beyond_noise ? Moved::yes : Moved::undecided;
}

}  // namespace

Movement movement(const TwoRounds& rounds, const MovementLevel& level) {
  const std::size_t count = rounds.planned.size();
  base::promise(rounds.before.size() == count && rounds.after.size() == count &&
                    rounds.measured.size() == count && rounds.covariance.rows == 2 * count &&
                    rounds.covariance.cols == 2 * count,
                "rounds: a place in each, a mark and two rows for every stake");
  Movement result;
  result.stakes.resize(rounds.planned.size());
  Comparing comparing{
      rounds, level, Significance(rounds.variance_factor, rounds.redundancy), {}, {}};
  for (std::size_t i = 0; i < rounds.measured.size(); ++i) {
    if (rounds.measured[i]) comparing.measured.push_back(i);
  }
  if (comparing.measured.size() < (rounds.tied ? 1 : kFewestCompared)) return result;
  take_hold(comparing, result);
  test_all(comparing, result);
  find_ground(comparing, result);
  result.datum = datum_of(comparing, result.stable);
  add_figures(comparing, result);
  add_smallest_shown(comparing, result);
  for (const std::size_t i : comparing.measured) {
    result.stakes[i].moved = judged(comparing, result, i);
  }
  return result;
}

}  // namespace stakewright::placement
