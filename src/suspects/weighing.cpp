#include "weighing.hpp"

#include <algorithm>
#include <cmath>

#include "log_sum.hpp"

namespace stakewright::suspects {
namespace {

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
  LogSum all;
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
