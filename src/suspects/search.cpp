#include "search.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "log_sum.hpp"

namespace stakewright::suspects {
namespace {

/// Sets grown further at each number of causes: enough that in simulations the chances no longer
/// change in the second figure.
constexpr std::size_t kLeaders[] = {16, 14, 10, 4, 4, 4};

/// Growing stops when all sets of one size together weigh less than this share of everything.
constexpr double kNoMoreShare = 1e-4;

struct Grown {
  double log_weight = 0.0;
  Hypothesis hypothesis;  ///< not refined
};

using Level = std::map<std::vector<std::size_t>, Grown>;

std::size_t dimensions(const Ground& ground, const Hypothesis& hypothesis) {
  std::size_t sum = 0;
  for (const std::size_t cause : hypothesis.causes) sum += (*ground.catalogue)[cause].dimensions;
  return sum;
}

/// The hypothesis with one more cause, in order.
Hypothesis with(const Hypothesis& hypothesis, std::size_t cause, std::size_t part) {
  Hypothesis result;
  result.causes = hypothesis.causes;
  result.parts = hypothesis.parts;
  const auto place = std::lower_bound(result.causes.begin(), result.causes.end(), cause);
  result.parts.insert(result.parts.begin() + (place - result.causes.begin()), part);
  result.causes.insert(place, cause);
  return result;
}

/// Two causes of which one contains the other are one: a row of a changed pair with a slip.
bool overlaps(const Ground& ground, const Hypothesis& hypothesis, std::size_t cause) {
  const auto rows_of = [](const Candidate& c) -> std::vector<std::size_t> {
    if (c.what == Cause::What::reading) return {c.index};
    if (c.what == Cause::What::rows) return {c.index, c.other};
    return {};
  };
  const std::vector<std::size_t> rows = rows_of((*ground.catalogue)[cause]);
  return std::any_of(hypothesis.causes.begin(), hypothesis.causes.end(), [&](std::size_t held) {
    if (held == cause) return true;
    const std::vector<std::size_t> others = rows_of((*ground.catalogue)[held]);
    return std::find_first_of(rows.begin(), rows.end(), others.begin(), others.end()) != rows.end();
  });
}

/// Adds every growth of one hypothesis to the level; returns the log of the sum of the gains.
double grow(const Ground& ground, const Hypothesis& hypothesis, Level& level) {
  LogSum gains;
  const std::size_t used = dimensions(ground, hypothesis);
  for (std::size_t cause = 0; cause < ground.catalogue->size(); ++cause) {
    if (used + (*ground.catalogue)[cause].dimensions > kMostDimensions) continue;
    if (overlaps(ground, hypothesis, cause)) continue;
    const Growth growth = suspects::growth(ground, hypothesis, cause);
    gains.add(growth.log_gain);
    Hypothesis next = with(hypothesis, cause, growth.part);
    next.log_weight = hypothesis.log_weight + growth.log_gain;
    const auto [place, added] = level.try_emplace(next.causes);
    if (added || place->second.log_weight < next.log_weight)
      place->second = {next.log_weight, std::move(next)};
  }
  return gains.value();
}

/// Refines the leading sets of a level; the weight of the others goes to `others`.
std::vector<Hypothesis> leaders_of(const Ground& ground, Level& level, std::size_t most,
                                   LogSum& others) {
  std::vector<const Grown*> order;
  for (const auto& entry : level) order.push_back(&entry.second);
  const std::size_t kept = std::min(most, order.size());
  std::partial_sort(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(kept), order.end(),
                    [](const Grown* a, const Grown* b) { return a->log_weight > b->log_weight; });
  for (std::size_t k = kept; k < order.size(); ++k) others.add(order[k]->log_weight);
  std::vector<Hypothesis> leaders;
  for (std::size_t k = 0; k < kept; ++k) {
    leaders.push_back(order[k]->hypothesis);
    refine(ground, leaders.back());
  }
  return leaders;
}

}  // namespace

Arrangement as_written(const adjustment::Network& network, const Setting& setting) {
  Arrangement result{network, std::nullopt, model_of(network, setting.staking.spread_m), {}};
  result.catalogue = catalogue(result.network, result.model, setting);
  return result;
}

Arrangement with_labels_back(const adjustment::Network& network, const ChangedLabels& labels,
                             const Setting& setting) {
  Arrangement result = as_written(relabelled(network, labels.first, labels.second), setting);
  result.labels = labels;
  return result;
}

Found search(const Ground& ground, std::size_t most_causes) {
  Found found;
  found.hypotheses.push_back({});
  LogSum others;
  LogSum all;
  all.add(0.0);
  std::vector<Hypothesis> leaders = found.hypotheses;
  for (std::size_t size = 1; size <= std::min(most_causes, std::size(kLeaders)); ++size) {
    Level level;
    double gains = -std::numeric_limits<double>::infinity();
    for (std::size_t k = 0; k < leaders.size(); ++k) {
      const double gain = grow(ground, leaders[k], level);
      if (k == 0) gains = gain;
    }
    if (level.empty()) break;
    LogSum aside;
    leaders = leaders_of(ground, level, kLeaders[size - 1], aside);
    LogSum here = aside;
    for (const Hypothesis& leader : leaders) here.add(leader.log_weight);
    all.add(here.value());
    others.add(aside.value());
    // Sets grown from those set aside are not looked at: their weight is that of their parents
    // times the gain that one more cause usually brings.
    others.add(aside.value() + std::min(gains, 0.0));
    std::sort(leaders.begin(), leaders.end(),
              [](const Hypothesis& a, const Hypothesis& b) { return a.log_weight > b.log_weight; });
    found.hypotheses.insert(found.hypotheses.end(), leaders.begin(), leaders.end());
    if (here.value() < all.value() + std::log(kNoMoreShare)) break;
  }
  found.log_others = others.value();
  return found;
}

}  // namespace stakewright::suspects
