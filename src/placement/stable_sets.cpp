#include "stable_sets.hpp"

#include <algorithm>
#include <bit>
#include <cstdint>
#include <limits>

#include "congruence.hpp"

namespace stakewright::placement {
namespace {

using Indices = std::vector<std::size_t>;

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
