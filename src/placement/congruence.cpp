#include "congruence.hpp"

#include <algorithm>
#include <bit>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/non_central_chi_squared.hpp>
#include <boost/math/distributions/non_central_f.hpp>
#include <cassert>
#include <cstdint>
#include <limits>

#include "laying.hpp"

namespace stakewright::placement {
namespace {

using base::Matrix;
using Indices = std::vector<std::size_t>;
using boost::math::complement;

// Halvings of the range that holds the non-centrality: to a millionth of it.
constexpr int kHalvings = 40;

// What the form is made of, for some stakes.
struct Parts {
  std::vector<double> difference;
  Matrix weights;  // of the shape alone
  int motions = 0;
};

Matrix covariance_of(const TwoRounds& rounds, const Indices& of) {
  Matrix result(2 * of.size(), 2 * of.size());
  const auto in_all = [&](std::size_t k) { return 2 * of[k / 2] + k % 2; };
  for (std::size_t row = 0; row < result.rows; ++row)
    for (std::size_t col = 0; col < result.cols; ++col)
      result(row, col) = rounds.covariance(in_all(row), in_all(col));
  return result;
}

// The inverse of Q + c G Gᵀ, freed of the motions G: whatever c is, they count for nothing.
Matrix weights_of_shape(Matrix covariance, const Matrix& motions) {
  const Matrix all = algebra::product(motions, algebra::transposed(motions));
  double size = 0.0;
  for (std::size_t i = 0; i < covariance.rows; ++i)
    size += covariance(i, i) / static_cast<double>(covariance.rows);
  for (std::size_t k = 0; k < all.values.size(); ++k) covariance.values[k] += size * all.values[k];
  return algebra::freed(algebra::inverse_of_positive(covariance).matrix, motions);
}

Parts parts_of(const TwoRounds& rounds, const Indices& of) {
  const Rigid rigid = rounds.tied ? Rigid{} : fit(laid_over(rounds), {of, of});
  Parts parts;
  std::vector<base::Point> places;
  for (const std::size_t stake : of) {
    places.push_back(laid(rigid, rounds.before[stake]));
    const base::Point moved = rounds.after[stake] - places.back();
    parts.difference.insert(parts.difference.end(), {moved.x_m, moved.y_m});
  }
  const Matrix covariance = covariance_of(rounds, of);
  if (rounds.tied) {
    parts.weights = algebra::inverse_of_positive(covariance).matrix;
    return parts;
  }
  const Matrix motions = algebra::rigid_motions(places, base::middle_of(places));
  parts.motions = static_cast<int>(motions.cols);
  parts.weights = weights_of_shape(covariance, motions);
  return parts;
}

struct Search {
  const TwoRounds& rounds;
  const Significance& significance;
  double alpha;
  Indices always;
  Indices others;        // may be taken out
  std::size_t smallest;  // fewer stakes than this show nothing

  [[nodiscard]] StableSet judged(Indices stakes) const {
    std::sort(stakes.begin(), stakes.end());
    const Congruence found = congruence(rounds, stakes);
    return {std::move(stakes), significance.statistic(found.form)};
  }

  [[nodiscard]] bool passes(const StableSet& set) const {
    const int freedom = 2 * static_cast<int>(set.stakes.size()) - (rounds.tied ? 0 : 3);
    return set.statistic <= significance.limit(freedom, alpha);
  }
};

void best_first(std::vector<StableSet>& sets) {
  std::sort(sets.begin(), sets.end(), [](const StableSet& a, const StableSet& b) {
    return a.statistic != b.statistic ? a.statistic < b.statistic : a.stakes < b.stakes;
  });
}

// All sets of `size` stakes.
std::vector<StableSet> passing_of(const Search& search, std::size_t size) {
  std::vector<StableSet> passing;
  const std::size_t n = search.others.size();
  for (std::uint32_t mask = 0; mask < (std::uint32_t{1} << n); ++mask) {
    if (static_cast<std::size_t>(std::popcount(mask)) + search.always.size() != size) continue;
    Indices stakes = search.always;
    for (std::size_t i = 0; i < n; ++i) {
      if ((mask >> i & 1U) != 0U) stakes.push_back(search.others[i]);
    }
    StableSet set = search.judged(std::move(stakes));
    if (search.passes(set)) passing.push_back(std::move(set));
  }
  return passing;
}

StableSets by_every_set(const Search& search) {
  StableSets result;
  for (std::size_t size = search.always.size() + search.others.size(); size >= search.smallest;
       --size) {
    result.sets = passing_of(search, size);
    if (!result.sets.empty()) break;
  }
  return result;
}

Indices without(const Indices& stakes, std::size_t stake) {
  Indices result = stakes;
  result.erase(std::remove(result.begin(), result.end(), stake), result.end());
  return result;
}

Indices with(Indices stakes, std::size_t stake) {
  stakes.push_back(stake);
  return stakes;
}

// Other sets of as many: one stake that went for one that stayed.
void add_exchanges(const Search& search, const Indices& gone, StableSets& result) {
  const Indices leading = result.sets.front().stakes;
  for (const std::size_t back : gone) {
    for (const std::size_t out : search.others) {
      if (std::find(leading.begin(), leading.end(), out) == leading.end()) continue;
      StableSet set = search.judged(with(without(leading, out), back));
      if (search.passes(set)) result.sets.push_back(std::move(set));
    }
  }
}

StableSets one_at_a_time(const Search& search) {
  Indices all = search.always;
  all.insert(all.end(), search.others.begin(), search.others.end());
  StableSet current = search.judged(all);
  Indices gone;
  while (!search.passes(current)) {
    if (current.stakes.size() <= search.smallest) return {{}, false};
    StableSet best{{}, std::numeric_limits<double>::infinity()};
    std::size_t out = 0;
    for (const std::size_t stake : search.others) {
      if (std::find(gone.begin(), gone.end(), stake) != gone.end()) continue;
      StableSet less = search.judged(without(current.stakes, stake));
      if (less.statistic >= best.statistic) continue;
      best = std::move(less);
      out = stake;
    }
    gone.push_back(out);
    current = std::move(best);
  }
  for (const std::size_t stake : Indices(gone)) {
    StableSet more = search.judged(with(current.stakes, stake));
    if (!search.passes(more)) continue;
    current = std::move(more);
    gone = without(gone, stake);
  }
  StableSets result{{current}, gone.size() <= 1};
  add_exchanges(search, gone, result);
  return result;
}

}  // namespace

double Significance::limit(int freedom, double alpha) const {
  if (redundancy_ == 0)
    return boost::math::quantile(complement(boost::math::chi_squared(freedom), alpha));
  const boost::math::fisher_f ratio(freedom, redundancy_);
  return freedom * boost::math::quantile(complement(ratio, alpha));
}

double Significance::by_noise(double statistic, int freedom) const {
  if (statistic <= 0.0) return 1.0;
  return beyond(statistic, freedom, 0.0);
}

double Significance::beyond(double limit, int freedom, double non_centrality) const {
  if (redundancy_ == 0 && non_centrality == 0.0)
    return boost::math::cdf(complement(boost::math::chi_squared(freedom), limit));
  if (redundancy_ == 0)
    return boost::math::cdf(
        complement(boost::math::non_central_chi_squared(freedom, non_centrality), limit));
  if (non_centrality == 0.0)
    return boost::math::cdf(
        complement(boost::math::fisher_f(freedom, redundancy_), limit / freedom));
  const boost::math::non_central_f ratio(freedom, redundancy_, non_centrality);
  return boost::math::cdf(complement(ratio, limit / freedom));
}

double Significance::non_centrality(int freedom, double alpha, double power) const {
  const double at = limit(freedom, alpha);
  double low = 0.0;
  double high = 1.0;
  while (beyond(at, freedom, high) < power) high *= 2.0;
  for (int step = 0; step < kHalvings; ++step) {
    const double middle = 0.5 * (low + high);
    (beyond(at, freedom, middle) < power ? low : high) = middle;
  }
  return high;
}

Survey laid_over(const TwoRounds& rounds) {
  Survey survey;
  survey.planned = rounds.before;
  survey.center = rounds.center;
  survey.found = rounds.after;
  survey.covariance = rounds.covariance;
  survey.measured = rounds.measured;
  return survey;
}

Congruence congruence(const TwoRounds& rounds, const Indices& of) {
  assert(of.size() >= (rounds.tied ? 1U : 2U));
  const Parts parts = parts_of(rounds, of);
  return {algebra::variance(parts.difference, parts.weights),
          2 * static_cast<int>(of.size()) - parts.motions};
}

std::vector<algebra::Symmetric> sensitivity(const TwoRounds& rounds, const Indices& of) {
  const Matrix weights = parts_of(rounds, of).weights;
  std::vector<algebra::Symmetric> result;
  for (std::size_t i = 0; i < of.size(); ++i) result.push_back(algebra::block_of(weights, i));
  return result;
}

StableSets stable_sets(const TwoRounds& rounds, const Indices& measured, const Indices& always,
                       const Significance& significance, double alpha) {
  Search search{rounds, significance, alpha, always, {}, rounds.tied ? 1 : kFewestCompared};
  for (const std::size_t stake : measured) {
    if (std::find(always.begin(), always.end(), stake) == always.end())
      search.others.push_back(stake);
  }
  if (always.size() > 1) search.smallest = always.size();
  StableSets result = measured.size() <= kEverySet ? by_every_set(search) : one_at_a_time(search);
  best_first(result.sets);
  return result;
}

}  // namespace stakewright::placement
