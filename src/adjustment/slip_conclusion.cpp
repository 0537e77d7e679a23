#include <algorithm>
#include <array>

#include "slip_sets.hpp"
#include "stakewright/adjustment/quantiles.hpp"

namespace stakewright::adjustment {
namespace {

/// Readings are named when the chance that they are all slips reaches this.
constexpr double kConvincing = 0.9;

/// Something must be wrong by the test of one reading, of a set of readings or of the whole, each
/// at this chance of a false alarm, before any reading is named.
constexpr double kAlarm = kReadingAlpha;

/// Above this chance of no slip at all an alarm is put down to chance or to a standard deviation
/// taken too small, not to a reading.
constexpr double kMoreLikelyThanNot = 0.5;

double number_of_sets(std::size_t size, std::size_t count) {
  double result = 1.0;
  for (std::size_t i = 0; i < size; ++i)
    result *= static_cast<double>(count - i) / static_cast<double>(i + 1);
  return result;
}

/// What a set of each size must explain: all sets of one size together raise no more false alarms
/// than all single readings do.
std::array<double, kMostSlips + 1> limits(std::size_t count) {
  std::array<double, kMostSlips + 1> result{};
  const double all = shared_alpha(static_cast<double>(count)) * static_cast<double>(count);
  for (std::size_t size = 1; size <= std::min(kMostSlips, count); ++size)
    result[size] = chi_square_limit(all / number_of_sets(size, count), static_cast<int>(size));
  return result;
}

bool something_is_wrong(const ResidualEvidence& evidence, const WeighedSets& weighed) {
  if (evidence.redundancy == 0) return false;
  if (evidence.chi_square > chi_square_limit(kAlarm, evidence.redundancy)) return true;
  const auto least = limits(evidence.sd.size());
  const WeighedSet& lead = weighed.sets.front();
  if (lead.set.size > 0 && lead.explained > least[lead.set.size]) return true;
  return std::any_of(weighed.sets.begin(), weighed.sets.end(), [&](const WeighedSet& w) {
    return w.set.size == 1 && w.explained > least[1];
  });
}

bool holds(const SlipCandidate& set, std::size_t reading) {
  const auto end = set.members.begin() + static_cast<std::ptrdiff_t>(set.size);
  return std::find(set.members.begin(), end, reading) != end;
}

/// Chance that every one of `readings` is a slip, whatever else is.
double chance_of_all(const WeighedSets& weighed, const std::vector<std::size_t>& readings) {
  double sum = 0.0;
  for (std::size_t s = 0; s < weighed.sets.size(); ++s) {
    const bool all = std::all_of(readings.begin(), readings.end(), [&](std::size_t reading) {
      return holds(weighed.sets[s].set, reading);
    });
    if (all) sum += weighed.chances[s];
  }
  return sum;
}

/// The readings of the leading set that are slips with a convincing chance, together.
std::vector<std::size_t> convincing(const WeighedSets& weighed) {
  const SlipCandidate& lead = weighed.sets.front().set;
  std::vector<std::size_t> result;
  for (std::size_t i = 0; i < lead.size; ++i)
    if (chance_of_all(weighed, {lead.members[i]}) >= kConvincing) result.push_back(lead.members[i]);
  if (!result.empty() && chance_of_all(weighed, result) < kConvincing) result.clear();
  return result;
}

bool in_a_group(const std::vector<std::vector<std::size_t>>& groups, std::size_t reading) {
  return std::any_of(groups.begin(), groups.end(), [&](const std::vector<std::size_t>& group) {
    return std::find(group.begin(), group.end(), reading) != group.end();
  });
}

/// Does the rest fit together when these readings are left out?
bool rest_fits(const ResidualEvidence& evidence, const std::vector<std::size_t>& readings) {
  SlipCandidate set;
  for (const std::size_t reading : readings) set.members[set.size++] = reading;
  const auto weighed = weigh(evidence, set, 0.0, 0.0);
  const int left = evidence.redundancy - static_cast<int>(set.size);
  return weighed && evidence.chi_square - weighed->explained <= chi_square_limit(kAlarm, left);
}

}  // namespace

Concluded conclude(const ResidualEvidence& evidence, const WeighedSets& weighed,
                   const std::vector<std::vector<std::size_t>>& groups) {
  if (!something_is_wrong(evidence, weighed)) return {};
  if (weighed.sets.front().set.size == 0 && weighed.chances.front() > kMoreLikelyThanNot) return {};
  const Concluded unclear{Conclusion::not_separable, {}};
  std::vector<std::size_t> named = convincing(weighed);
  // With less redundancy some other set of as many readings explains some slips just as well.
  if (named.empty() || evidence.redundancy < 2 * static_cast<int>(named.size())) return unclear;
  for (const std::size_t reading : named)
    if (in_a_group(groups, reading)) return unclear;
  if (!rest_fits(evidence, named)) return unclear;
  return {Conclusion::named, std::move(named)};
}

}  // namespace stakewright::adjustment
