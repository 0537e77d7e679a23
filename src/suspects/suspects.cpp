#include "stakewright/suspects/suspects.hpp"

#include <algorithm>
#include <cmath>

#include "describe.hpp"
#include "stakewright/base/significant.hpp"
#include "weighing.hpp"

namespace stakewright::suspects {
namespace {

constexpr std::size_t kMostCauses = 3;

/// Entries less likely than this are left to the rest.
constexpr double kLeastChance = 0.01;

/// Two explanations whose fitted readings differ by less than this many standard deviations, all
/// readings together, cannot be told apart by these numbers.
constexpr double kAlike = 2.0;

/// No tape is that much too long; lengths that are belong to another polygon.
constexpr double kAnotherSize = 0.02;

/// Lengths share one factor when half of them scatter about it by less than this share of what the
/// factor is off.
constexpr double kOneFactor = 0.25;

/// Half of the readings are off by this share of their length, and no few causes explain it.
constexpr double kAnotherShape = 0.08;

/// Misfit that no luck explains: this many standard deviations of chi-square over its mean.
constexpr double kNoLuck = 8.0;

struct Listed {
  std::vector<double> effect;
  std::vector<double> weighted;  ///< W times effect
};

bool alike(const Listed& a, const Listed& b) {
  double square = 0.0;
  for (std::size_t i = 0; i < a.effect.size(); ++i)
    square += (a.effect[i] - b.effect[i]) * (a.weighted[i] - b.weighted[i]);
  return square < kAlike * kAlike;
}

Listed listed(const adjustment::Network& network, const Weighing& weighing, const Entry& entry) {
  Listed result;
  result.effect = effect(network, weighing.arrangements[entry.arrangement], entry.hypothesis);
  const base::Matrix& gram = weighing.arrangements.front().model.gram;
  result.weighted.assign(result.effect.size(), 0.0);
  for (std::size_t i = 0; i < result.effect.size(); ++i)
    for (std::size_t j = 0; j < result.effect.size(); ++j)
      result.weighted[i] += gram(i, j) * result.effect[j];
  return result;
}

/// The entries that are shown: the likeliest few and nothing wrong.
std::vector<const Entry*> shown(const Weighing& weighing, std::size_t most) {
  std::vector<const Entry*> result;
  std::size_t others = 0;
  for (const Entry& entry : weighing.entries) {
    const std::size_t count = causes_of(weighing, entry);
    if (count > kMostCauses) continue;
    const bool likely = std::exp(entry.log_chance) >= kLeastChance || result.empty();
    if (count == 0 || (likely && others < most)) result.push_back(&entry);
    if (count > 0) ++others;
  }
  return result;
}

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

/// Spread of the middle half about the median, as a share of how far the median is off `right`.
double relative_scatter(const std::vector<double>& values, double right) {
  const double middle = median(values);
  std::vector<double> away;
  for (const double value : values) away.push_back(std::abs(value - middle));
  return median(away) / std::abs(middle - right);
}

/// The lengths are the plan's times one factor, and not the plan's with one amount added, as a
/// mark held instead of the tape's zero would make them.
bool of_another_size(const std::vector<double>& ratios, const std::vector<double>& offs) {
  if (std::abs(median(ratios) - 1.0) <= kAnotherSize) return false;
  const double scatter = relative_scatter(ratios, 1.0);
  return scatter < kOneFactor && scatter < relative_scatter(offs, 0.0);
}

base::Fact another_size(const std::vector<double>& ratios) {
  return {"suspects.another_size", {{"times", base::significant(median(ratios), 3)}}};
}

/// Why the readings are not of this plan; empty when they may be.
std::optional<base::Fact> another_job(const Weighing& weighing) {
  const Model& model = weighing.arrangements.front().model;
  std::vector<double> ratios;
  std::vector<double> shares;
  std::vector<double> offs;
  for (const Row& row : model.rows) {
    const double planned = row.planned.value;
    if (row.seen.is_angle() || planned <= 0.0) continue;
    offs.push_back(row.off);
    ratios.push_back((planned + row.off) / planned);
    shares.push_back(std::abs(ratios.back() - 1.0));
  }
  if (ratios.size() < 3) return {};
  if (of_another_size(ratios, offs)) return another_size(ratios);
  const Entry& best = weighing.entries.front();
  const Arrangement& arrangement = weighing.arrangements[best.arrangement];
  const double off = median(shares);
  std::size_t column = 0;
  for (const std::size_t index : best.hypothesis.causes) {
    const Candidate& cause = arrangement.catalogue[index];
    if (cause.what == Cause::What::instrument_scale && off > kAnotherSize &&
        std::abs(best.hypothesis.sizes.mean[column]) > kAnotherSize)
      return another_size(ratios);
    column += cause.dimensions;
  }
  const auto m = static_cast<double>(model.rows.size());
  const double misfit = unexplained(arrangement.ground(), best.hypothesis);
  if (off > kAnotherShape && misfit > m + kNoLuck * std::sqrt(2.0 * m))
    return base::Fact{"suspects.another_shape", {{"percent", base::Number{100.0 * off}}}};
  return {};
}

std::optional<base::Fact> remark(const adjustment::Network& network, const Suspects& suspects) {
  if (network.observations.size() == 1) return base::Fact{"suspects.one_reading"};
  if (suspects.rest > 0.5) return base::Fact{"suspects.many_causes"};
  return {};
}

void link_alike(Suspects& suspects, const std::vector<Listed>& entries) {
  for (std::size_t a = 0; a < entries.size(); ++a)
    for (std::size_t b = 0; b < entries.size(); ++b) {
      if (a == b || suspects.ranked[a].causes.empty() || suspects.ranked[b].causes.empty())
        continue;
      if (suspects.ranked[a].causes.size() != suspects.ranked[b].causes.size()) continue;
      if (alike(entries[a], entries[b])) suspects.ranked[a].alike.push_back(b);
    }
}

}  // namespace

Suspects weigh(const adjustment::Network& network, const Setting& setting) {
  Suspects result;
  if (network.observations.empty()) {
    result.remark = base::Fact{"suspects.no_readings"};
    return result;
  }
  if (network.observations.size() > kMostReadings) {
    result.remark = base::Fact{"suspects.too_many", {{"most", base::Count{kMostReadings}}}};
    return result;
  }
  const Weighing weighing = weigh_all(network, setting);
  result.remark = another_job(weighing);
  result.of_another_job = result.remark.has_value();
  if (result.of_another_job) return result;
  std::vector<Listed> entries;
  for (const Entry* entry : shown(weighing, setting.most_listed)) {
    const Arrangement& arrangement = weighing.arrangements[entry->arrangement];
    Explanation explanation;
    explanation.chance = std::exp(entry->log_chance);
    explanation.causes = causes(arrangement, entry->hypothesis);
    result.rest -= explanation.chance;
    result.ranked.push_back(std::move(explanation));
    entries.push_back(listed(network, weighing, *entry));
  }
  result.rest = std::max(0.0, result.rest);
  link_alike(result, entries);
  result.remark = remark(network, result);
  return result;
}

}  // namespace stakewright::suspects
