#include "slip_sets.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace stakewright::adjustment {
namespace {

/// Sets of three are grown from this many leading pairs: a set of three in which no two members
/// lead the pairs is far less likely than the pairs themselves.
constexpr std::size_t kPairsGrown = 24;

/// Chances of a slip are kept off nought and one, where no reading could change them.
constexpr double kLeastMisread = 1e-6;

/// Sets lighter than the leading one by exp(−this) are passed over: all pairs and triples of a
/// thousand readings together could not make a thousandth of its weight.
constexpr double kPassedOver = 28.0;

bool likelier(const WeighedSet& a, const WeighedSet& b) { return a.log_weight > b.log_weight; }

/// Adds sets as they are weighed, and knows the heaviest so far.
struct Collector {
  const ResidualEvidence& evidence;
  double log_odds = 0.0;
  double heaviest = 0.0;  ///< the set of no slips weighs exp(0)
  std::vector<WeighedSet> sets;

  void add(const SlipCandidate& set) {
    const auto weighed = weigh(evidence, set, log_odds, heaviest - kPassedOver);
    if (!weighed) return;
    heaviest = std::max(heaviest, weighed->log_weight);
    sets.push_back(*weighed);
  }
};

void put_in_front(std::vector<WeighedSet>& sets, std::size_t lead) {
  const auto middle = sets.begin() + static_cast<std::ptrdiff_t>(std::min(lead, sets.size()));
  std::partial_sort(sets.begin(), middle, sets.end(), likelier);
}

/// The leading pairs, each with every third reading, each set once.
void add_triples(std::vector<WeighedSet> pairs, Collector& collector) {
  put_in_front(pairs, kPairsGrown);
  std::vector<std::array<std::size_t, kMostSlips>> triples;
  for (std::size_t p = 0; p < std::min(kPairsGrown, pairs.size()); ++p) {
    const auto& pair = pairs[p].set.members;
    for (std::size_t third = 0; third < collector.evidence.sd.size(); ++third) {
      if (third == pair[0] || third == pair[1]) continue;
      triples.push_back({pair[0], pair[1], third});
      std::sort(triples.back().begin(), triples.back().end());
    }
  }
  std::sort(triples.begin(), triples.end());
  triples.erase(std::unique(triples.begin(), triples.end()), triples.end());
  for (const auto& members : triples) collector.add({members, 3});
}

}  // namespace

WeighedSets weigh_all(const ResidualEvidence& evidence, double misread, std::size_t lead) {
  const double chance = std::clamp(misread, kLeastMisread, 1.0 - kLeastMisread);
  Collector collector{evidence, std::log(chance / (1.0 - chance)), 0.0, {}};
  const std::size_t count = evidence.sd.size();
  collector.add({});
  for (std::size_t i = 0; i < count; ++i) collector.add({{i}, 1});
  const auto singles = static_cast<std::ptrdiff_t>(collector.sets.size());
  for (std::size_t i = 0; i < count; ++i)
    for (std::size_t j = i + 1; j < count; ++j) collector.add({{i, j}, 2});
  add_triples({collector.sets.begin() + singles, collector.sets.end()}, collector);
  WeighedSets result{std::move(collector.sets), {}};
  put_in_front(result.sets, lead);
  double sum = 0.0;
  for (const WeighedSet& w : result.sets) {
    result.chances.push_back(std::exp(w.log_weight - collector.heaviest));
    sum += result.chances.back();
  }
  for (double& share : result.chances) share /= sum;
  return result;
}

std::vector<std::vector<std::size_t>> correlated_groups(const ResidualEvidence& evidence) {
  const std::size_t count = evidence.sd.size();
  std::vector<std::size_t> group(count);
  std::iota(group.begin(), group.end(), std::size_t{0});
  const Eigen::MatrixXd& M = evidence.cofactor;
  for (Eigen::Index i = 0; i < M.rows(); ++i)
    for (Eigen::Index j = i + 1; j < M.cols(); ++j)
      if (M(i, j) * M(i, j) > kFullyCorrelated * M(i, i) * M(j, j))
        std::replace(group.begin(), group.end(), group[static_cast<std::size_t>(j)],
                     group[static_cast<std::size_t>(i)]);
  std::vector<std::vector<std::size_t>> result;
  for (std::size_t g = 0; g < count; ++g) {
    std::vector<std::size_t> members;
    for (std::size_t i = 0; i < count; ++i)
      if (group[i] == g) members.push_back(i);
    if (members.size() > 1) result.push_back(std::move(members));
  }
  return result;
}

}  // namespace stakewright::adjustment
