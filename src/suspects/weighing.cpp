#include "weighing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace stakewright::suspects {
namespace {

/// What a search found.  Weights are logs, against nothing wrong in the same arrangement.
struct Found {
  std::vector<Hypothesis> hypotheses;  ///< refined ones, nothing wrong first, then in no order
  double log_others = 0.0;             ///< weight of all that was looked at and not refined, and an
                                       ///< estimate of what was not looked at
};

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
  algebra::LogSum gains;
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
                                   std::size_t most, algebra::LogSum& aside) {
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

/// Sets of up to `most_causes` causes.
Found search(const Ground& ground, std::size_t most_causes) {
  Found found;
  found.hypotheses.push_back({});
  algebra::LogSum others;
  algebra::LogSum all;
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
    algebra::LogSum aside;
    leaders = leaders_of(ground, level, kLeaders[size - 1], aside);
    algebra::LogSum here = aside;
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

/// Sets are grown to this many causes.  Three are listed; what more causes explain better shows in
/// the rest.
constexpr std::size_t kMostGrown = 6;

/// Changed labels are looked into when, to first order, they come this near (log) to the best
/// single cause; the first order errs by a few units.
constexpr double kNearTheBest = 25.0;
constexpr std::size_t kMostLabelPairs = 2;

double best_single(const Found& found) {
  double best = 0.0;
  for (const Hypothesis& hypothesis : found.hypotheses)
    if (hypothesis.causes.size() <= 1) best = std::max(best, hypothesis.log_weight);
  return best;
}

/// The arrangement an explanation speaks of, made when it is not there yet.
std::size_t arrangement_for(Weighing& weighing, const adjustment::Network& network,
                            const Setting& setting, const std::vector<Cause>& causes) {
  for (const Cause& cause : causes) {
    if (cause.what != Cause::What::labels) continue;
    for (std::size_t k = 1; k < weighing.arrangements.size(); ++k)
      if (weighing.arrangements[k].labels->first == cause.index &&
          weighing.arrangements[k].labels->second == cause.other)
        return k;
    weighing.arrangements.push_back(
        with_labels_back(network, {cause.index, *cause.other, 0.0, 0.0}, setting));
    return weighing.arrangements.size() - 1;
  }
  return 0;
}

bool names(const std::vector<Cause>& causes, const Candidate& candidate) {
  return std::any_of(causes.begin(), causes.end(), [&](const Cause& cause) {
    const Cause::What what =
        cause.what == Cause::What::wrong_stake ? Cause::What::reading : cause.what;
    return what == candidate.what && cause.index == candidate.index &&
           (what != Cause::What::rows || cause.other == candidate.other);
  });
}

}  // namespace

std::size_t causes_of(const Weighing& weighing, const Entry& entry) {
  return entry.hypothesis.causes.size() +
         (weighing.arrangements[entry.arrangement].labels.has_value() ? 1 : 0);
}

Weighing weigh_all(const adjustment::Network& network, const Setting& setting) {
  Weighing weighing;
  algebra::LogSum all;
  const auto take = [&](Arrangement arrangement, double log_odds, std::size_t most_causes) {
    const Found found = search(arrangement.ground(), most_causes);
    for (const Hypothesis& hypothesis : found.hypotheses) {
      weighing.entries.push_back(
          {weighing.arrangements.size(), hypothesis, log_odds + hypothesis.log_weight});
      all.add(weighing.entries.back().log_chance);
    }
    all.add(log_odds + found.log_others);
    weighing.arrangements.push_back(std::move(arrangement));
    return best_single(found);
  };
  const double best = take(as_written(network, setting), 0.0, kMostGrown);
  const double written = weighing.arrangements.front().model.log_likelihood;
  for (const ChangedLabels& labels :
       changed_labels(network, weighing.arrangements.front().model, setting, kMostLabelPairs)) {
    if (labels.log_ratio <= 0.0 || labels.log_odds + labels.log_ratio < best - kNearTheBest) break;
    Arrangement arrangement = with_labels_back(network, labels, setting);
    const double odds = labels.log_odds + arrangement.model.log_likelihood - written;
    take(std::move(arrangement), odds, kMostGrown - 1);
  }
  for (Entry& entry : weighing.entries) entry.log_chance -= all.value();
  std::sort(weighing.entries.begin(), weighing.entries.end(),
            [](const Entry& a, const Entry& b) { return a.log_chance > b.log_chance; });
  return weighing;
}

Weighing recall(const adjustment::Network& network, const Setting& setting,
                const Suspects& suspects) {
  Weighing weighing;
  weighing.arrangements.push_back(as_written(network, setting));
  for (const Explanation& explanation : suspects.ranked) {
    Entry entry{arrangement_for(weighing, network, setting, explanation.causes),
                {},
                std::log(explanation.chance)};
    const Arrangement& arrangement = weighing.arrangements[entry.arrangement];
    for (std::size_t c = 0; c < arrangement.catalogue.size(); ++c)
      if (names(explanation.causes, arrangement.catalogue[c])) entry.hypothesis.causes.push_back(c);
    entry.hypothesis.parts.assign(entry.hypothesis.causes.size(), 0);
    refine(arrangement.ground(), entry.hypothesis);
    weighing.entries.push_back(std::move(entry));
  }
  return weighing;
}

}  // namespace stakewright::suspects
