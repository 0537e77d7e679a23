#include "same_pairs.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "stakewright/adjustment/quantiles.hpp"

namespace stakewright::check {
namespace {

using readings::Observation;

struct Sums {
  double length_m = 0.0;  // of all readings of one pair with one instrument
  double variance_m2 = 0.0;
  double count = 0.0;
};

using Ends = std::pair<std::size_t, std::size_t>;
using ByPair = std::map<Ends, Sums>;

// What each instrument read, pair by pair.
std::vector<ByPair> read_by_pair(const Findings& findings) {
  std::vector<ByPair> result(findings.network.instruments.size());
  for (std::size_t i = 0; i < findings.network.observations.size(); ++i) {
    const Observation& seen = findings.network.observations[i];
    if (findings.used.readings_out[i].excluded || seen.is_angle()) continue;
    Sums& sums = result[seen.instrument][std::minmax(seen.from, seen.to)];
    sums.length_m += seen.corrected;
    sums.variance_m2 += seen.sd * seen.sd;
    sums.count += 1.0;
  }
  return result;
}

// The difference of two means on one pair.
struct Difference {
  double length_m = 0.0;
  double more_m = 0.0;
  double weight = 0.0;
};

std::vector<Difference> differences(const ByPair& one, const ByPair& other) {
  std::vector<Difference> result;
  for (const auto& [ends, a] : one) {
    const auto found = other.find(ends);
    if (found == other.end()) continue;
    const Sums& b = found->second;
    const double variance_m2 =
        a.variance_m2 / (a.count * a.count) + b.variance_m2 / (b.count * b.count);
    result.push_back(
        {b.length_m / b.count, a.length_m / a.count - b.length_m / b.count, 1.0 / variance_m2});
  }
  return result;
}

// Weighted least squares of the differences on one column: 1 for a zero error, the length for a
// scale error.
struct Line {
  double estimate = 0.0;
  double sd = 0.0;
  double squares = 0.0;  // left over
};

template <typename Of>
Line fitted(const std::vector<Difference>& all, Of column) {
  double normal = 0.0;
  double right = 0.0;
  double total = 0.0;
  for (const Difference& difference : all) {
    const double x = column(difference);
    normal += difference.weight * x * x;
    right += difference.weight * x * difference.more_m;
    total += difference.weight * difference.more_m * difference.more_m;
  }
  return {right / normal, 1.0 / std::sqrt(normal), total - right * right / normal};
}

SamePairs compared_on(const std::vector<Difference>& all, double confidence) {
  const Line zero = fitted(all, [](const Difference&) { return 1.0; });
  const Line scale = fitted(all, [](const Difference& difference) { return difference.length_m; });
  const double limit = adjustment::normal_limit(1.0 - confidence);
  SamePairs result;
  result.pairs = all.size();
  result.more_m = zero.estimate;
  result.sd_m = zero.sd;
  result.scale = scale.estimate;
  result.scale_sd = scale.sd;
  result.differ =
      std::max(std::abs(zero.estimate) / zero.sd, std::abs(scale.estimate) / scale.sd) > limit;
  // One of the two explains what the other cannot: both have one unknown, so the squares left over
  // compare as twice the logarithm of their likelihoods.
  if (result.differ && std::abs(zero.squares - scale.squares) > limit * limit)
    result.like = scale.squares < zero.squares ? SamePairs::Like::scale : SamePairs::Like::zero;
  return result;
}

base::Id difference_id(SamePairs::Like like) {
  switch (like) {
    case SamePairs::Like::zero:
      return "check.instruments_differ_alike";
    case SamePairs::Like::scale:
      return "check.instruments_differ_with_length";
    case SamePairs::Like::either:
      break;
  }
  return "check.instruments_differ";
}

base::Fact difference_remark(const Findings& findings, const SamePairs& same) {
  const auto& instruments = findings.network.instruments;
  return {difference_id(same.like),
          {{"instrument", base::Name{instruments[same.instrument].name}},
           {"more", base::Directed{base::Way::reads, base::Length{same.more_m, base::Step::fine}}},
           {"against", base::Name{instruments[same.against].name}},
           {"count", base::Count{same.pairs}}}};
}

// The pairs that an instrument read, longest first.
std::vector<std::pair<double, Ends>> longest_first(const ByPair& read) {
  std::vector<std::pair<double, Ends>> result;
  for (const auto& [ends, sums] : read) result.emplace_back(sums.length_m / sums.count, ends);
  std::stable_sort(result.begin(), result.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  return result;
}

// Pairs worth reading with a second instrument.
constexpr std::size_t kPairsToShow = 2;

// Lengths that differ by less than this count as equally long: the list then goes by labels.
constexpr double kEquallyLong_m = 0.1;

base::List pairs_worth(const Findings& findings, const ByPair& read) {
  auto pairs = longest_first(read);
  const double longest_m = pairs.front().first;
  std::stable_partition(pairs.begin(), pairs.end(),
                        [&](const auto& pair) { return pair.first > longest_m - kEquallyLong_m; });
  base::List names;
  for (std::size_t i = 0; i < std::min(kPairsToShow, pairs.size()); ++i) {
    const auto& points = findings.network.points;
    const auto& [from, to] = pairs[i].second;
    names.items.emplace_back(base::ReadingName{{points[from].label, points[to].label}});
  }
  return names;
}

// The smallest error of the instrument, at its longest pulls, that a second one on as many pairs
// would show.
double would_show_m(const Findings& findings, std::size_t instrument,
                    const readings::Instrument& other, const ByPair& read) {
  const double longest_m = longest_first(read).front().first;
  const double sd_m = std::hypot(
      readings::standard_deviation_m(findings.network.instruments[instrument], longest_m),
      readings::standard_deviation_m(other, longest_m));
  const auto pairs = static_cast<double>(std::min(kPairsToShow, read.size()));
  return adjustment::smallest_shift(adjustment::kSetAlpha, adjustment::kPower) * sd_m /
         std::sqrt(pairs);
}

// The instrument of the other kind, tape or laser, that most readings were made with, or the usual.
const readings::Instrument* second_for(const Input& input, const Findings& findings,
                                       std::size_t instrument, const std::vector<ByPair>& by_pair) {
  const auto& instruments = findings.network.instruments;
  const bool tape = instruments[instrument].kind == readings::Kind::tape;
  const readings::Kind wanted = tape ? readings::Kind::laser : readings::Kind::tape;
  std::size_t best = instruments.size();
  for (std::size_t i = 0; i < instruments.size(); ++i) {
    if (instruments[i].kind != wanted || by_pair[i].empty()) continue;
    if (best == instruments.size() || by_pair[i].size() > by_pair[best].size()) best = i;
  }
  if (best < instruments.size()) return &instruments[best];
  return readings::instrument_named(input.instruments, readings::default_instrument(wanted));
}

bool is_compared(const Findings& findings, std::size_t instrument) {
  return std::any_of(findings.same_pairs.begin(), findings.same_pairs.end(),
                     [&](const SamePairs& same) {
                       return same.pairs >= kPairsToShow &&
                              (same.instrument == instrument || same.against == instrument);
                     });
}

// Only the instrument with most readings: what is true of the second follows from it.
std::optional<base::Fact> hidden_remark(const Input& input, const Findings& findings) {
  const std::vector<ByPair> by_pair = read_by_pair(findings);
  const auto most =
      std::max_element(by_pair.begin(), by_pair.end(),
                       [](const ByPair& a, const ByPair& b) { return a.size() < b.size(); });
  const auto instrument = static_cast<std::size_t>(most - by_pair.begin());
  if (most == by_pair.end() || most->size() < kPairsToShow || is_compared(findings, instrument))
    return {};
  const readings::Instrument* second = second_for(input, findings, instrument, by_pair);
  if (second == nullptr) return {};
  return base::Fact{"check.nothing_shows_a_tape_off",
                    {{"pairs", pairs_worth(findings, *most)},
                     {"second", base::Name{second->name}},
                     {"instrument", base::Name{findings.network.instruments[instrument].name}},
                     {"error", base::Length{would_show_m(findings, instrument, *second, *most)}}}};
}

}  // namespace

std::vector<SamePairs> same_pairs(const Findings& findings, double confidence) {
  const std::vector<ByPair> by_pair = read_by_pair(findings);
  std::vector<SamePairs> result;
  for (std::size_t a = 0; a < by_pair.size(); ++a) {
    for (std::size_t b = a + 1; b < by_pair.size(); ++b) {
      const std::vector<Difference> all = differences(by_pair[a], by_pair[b]);
      if (all.empty()) continue;
      result.push_back(compared_on(all, confidence));
      result.back().instrument = a;
      result.back().against = b;
    }
  }
  return result;
}

std::vector<base::Fact> instrument_remarks(const Input& input, const Findings& findings) {
  std::vector<base::Fact> remarks;
  for (const SamePairs& same : findings.same_pairs) {
    if (same.differ) remarks.push_back(difference_remark(findings, same));
  }
  if (const auto hidden = hidden_remark(input, findings)) remarks.push_back(*hidden);
  return remarks;
}

}  // namespace stakewright::check
