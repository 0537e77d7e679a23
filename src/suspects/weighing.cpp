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

Recalled recall(const adjustment::Network& network, const Setting& setting,
                const std::vector<Cause>& causes) {
  Recalled result{as_written(network, setting), {}};
  for (const Cause& cause : causes)
    if (cause.what == Cause::What::labels && cause.other)
      result.arrangement =
          with_labels_back(network, {cause.index, *cause.other, 0.0, 0.0}, setting);
  const std::vector<Candidate>& list = result.arrangement.catalogue;
  for (std::size_t c = 0; c < list.size(); ++c) {
    const bool held = std::any_of(causes.begin(), causes.end(), [&](const Cause& cause) {
      const Cause::What what =
          cause.what == Cause::What::wrong_stake ? Cause::What::reading : cause.what;
      return what == list[c].what && cause.index == list[c].index &&
             (what != Cause::What::rows || cause.other == list[c].other);
    });
    if (held) result.hypothesis.causes.push_back(c);
  }
  result.hypothesis.parts.assign(result.hypothesis.causes.size(), 0);
  refine(result.arrangement.ground(), result.hypothesis);
  return result;
}

}  // namespace stakewright::suspects
