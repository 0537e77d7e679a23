#include "search.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "log_sum.hpp"

namespace stakewright::suspects {
namespace {

/// Sets grown further at each number of causes: enough that in simulations the chances no longer
/// change in the second figure.
constexpr std::size_t kLeaders[] = {16, 14, 10, 4, 4, 4};

/// Growing stops when all sets of one size together weigh less than this share of everything.
constexpr double kNoMoreShare = 1e-4;

constexpr std::size_t kMostCauses = std::size(kLeaders);

/// A set that growth came upon, not refined.  Unused places hold 0.
struct Grown {
  std::size_t size = 0;
  std::array<std::size_t, kMostCauses> causes{};  ///< ascending
  std::array<std::size_t, kMostCauses> parts{};
  double log_weight = 0.0;
};

std::size_t dimensions(const Ground& ground, const Hypothesis& hypothesis) {
  std::size_t sum = 0;
  for (const std::size_t cause : hypothesis.causes) sum += (*ground.catalogue)[cause].dimensions;
  return sum;
}

/// The hypothesis with one more cause, in order.
Grown with(const Hypothesis& hypothesis, std::size_t cause, const Growth& growth) {
  Grown result;
  result.log_weight = hypothesis.log_weight + growth.log_gain;
  const auto add = [&](std::size_t index, std::size_t part) {
    result.causes[result.size] = index;
    result.parts[result.size++] = part;
  };
  std::size_t c = 0;
  for (; c < hypothesis.causes.size() && hypothesis.causes[c] < cause; ++c)
    add(hypothesis.causes[c], hypothesis.parts[c]);
  add(cause, growth.part);
  for (; c < hypothesis.causes.size(); ++c) add(hypothesis.causes[c], hypothesis.parts[c]);
  return result;
}

Hypothesis hypothesis_of(const Grown& grown) {
  Hypothesis result;
  result.causes.assign(grown.causes.begin(),
                       grown.causes.begin() + static_cast<std::ptrdiff_t>(grown.size));
  result.parts.assign(grown.parts.begin(),
                      grown.parts.begin() + static_cast<std::ptrdiff_t>(grown.size));
  return result;
}

/// Two causes of which one contains the other are one: a row of a changed pair with a slip.
bool overlaps(const Ground& ground, const Hypothesis& hypothesis, std::size_t cause) {
  const auto touches = [](const Candidate& c, std::size_t row) {
    return (c.what == Cause::What::reading && c.index == row) ||
           (c.what == Cause::What::rows && (c.index == row || c.other == row));
  };
  const Candidate& added = (*ground.catalogue)[cause];
  const bool of_rows = added.what == Cause::What::reading || added.what == Cause::What::rows;
  return std::any_of(hypothesis.causes.begin(), hypothesis.causes.end(), [&](std::size_t held) {
    const Candidate& other = (*ground.catalogue)[held];
    return held == cause || (of_rows && touches(other, added.index)) ||
           (added.what == Cause::What::rows && touches(other, added.other));
  });
}

/// Adds every growth of one hypothesis to the level; returns the log of the sum of the gains.
double grow(const Ground& ground, const Hypothesis& hypothesis, std::vector<Grown>& level) {
  LogSum gains;
  const std::size_t used = dimensions(ground, hypothesis);
  for (std::size_t cause = 0; cause < ground.catalogue->size(); ++cause) {
    if (used + (*ground.catalogue)[cause].dimensions > kMostDimensions) continue;
    if (overlaps(ground, hypothesis, cause)) continue;
    const Growth growth = suspects::growth(ground, hypothesis, cause);
    gains.add(growth.log_gain);
    level.push_back(with(hypothesis, cause, growth));
  }
  return gains.value();
}

/// A set reached in several ways counts once, with its best weight; best sets first.
void keep_best_of_each(std::vector<Grown>& level) {
  std::sort(level.begin(), level.end(), [](const Grown& a, const Grown& b) {
    return a.causes != b.causes ? a.causes < b.causes : a.log_weight > b.log_weight;
  });
  level.erase(std::unique(level.begin(), level.end(),
                          [](const Grown& a, const Grown& b) { return a.causes == b.causes; }),
              level.end());
  std::sort(level.begin(), level.end(),
            [](const Grown& a, const Grown& b) { return a.log_weight > b.log_weight; });
}

/// Refines the leading sets of a level; the weight of the others goes to `aside`.
std::vector<Hypothesis> leaders_of(const Ground& ground, std::vector<Grown>& level,
                                   std::size_t most, LogSum& aside) {
  keep_best_of_each(level);
  std::vector<Hypothesis> leaders;
  for (std::size_t k = 0; k < level.size(); ++k) {
    if (k >= most) {
      aside.add(level[k].log_weight);
      continue;
    }
    leaders.push_back(hypothesis_of(level[k]));
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
  Arrangement result = as_written(relabeled(network, labels.first, labels.second), setting);
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
  for (std::size_t size = 1; size <= std::min(most_causes, kMostCauses); ++size) {
    std::vector<Grown> level;
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
