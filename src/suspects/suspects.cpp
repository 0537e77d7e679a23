#include "stakewright/suspects/suspects.hpp"

#include <algorithm>
#include <cmath>

#include "slips.hpp"
#include "stakewright/algebra/algebra.hpp"
#include "stakewright/base/angle.hpp"
#include "stakewright/base/significant.hpp"
#include "weighing.hpp"

namespace stakewright::suspects {
namespace {

// From an entry of the weighing to what is reported of it.

/// A kind of slip is named when it is likelier than every other size together.
constexpr double kClearKind = 0.5;

/// A kind is not named when another fits this well beside it, whichever is the commoner.
constexpr double kFitsAsWell = 0.25;

/// Wrong pulls of one length that are listed.
constexpr std::size_t kMostPullsNamed = 4;

/// Two lengths, or angles, nearer than this are the same wrong pull.
constexpr double kSamePull_m = 0.001;
constexpr double kSameSight_rad = 0.0003;

/// A stake's place is shown one way only when its worst direction is this much worse than its
/// best, and worse than a tape shows anything.
constexpr double kOneWayRatio = 4.0;
constexpr double kOneWay_m = 0.020;

/// The whole mark that a kind counts, meters or radians; 0 for a kind that counts none.
double mark_of(SlipKind kind) {
  switch (kind) {
    case SlipKind::foot:
      return 0.3048;
    case SlipKind::inch:
      return 0.0254;
    case SlipKind::meter:
      return 1.0;
    case SlipKind::decimeter:
      return 0.1;
    case SlipKind::centimeter:
      return 0.01;
    case SlipKind::degree:
      return base::kDegree_rad;
    case SlipKind::ten_minutes:
      return base::kDegree_rad / 6.0;
    default:
      return 0.0;
  }
}

std::size_t times_of(const Component& part) {
  const double mark = mark_of(part.kind);
  return mark > 0.0 && std::abs(part.mean[0]) > 1.5 * mark ? 2 : 1;
}

/// The one part that stands out, if one does, it is a kind, and no other kind fits about as well.
const Component* clear_part(const Arrangement& arrangement, const Hypothesis& hypothesis,
                            std::size_t position) {
  const std::vector<double> shares = part_shares(arrangement.ground(), hypothesis, position);
  const std::vector<Component>& parts = arrangement.catalogue[hypothesis.causes[position]].parts;
  const auto best =
      static_cast<std::size_t>(std::max_element(shares.begin(), shares.end()) - shares.begin());
  if (parts[best].kind == SlipKind::any) return nullptr;
  const auto fit = [&](std::size_t p) { return shares[p] * std::exp(-parts[p].log_share); };
  double share = 0.0;
  for (std::size_t p = 0; p < parts.size(); ++p) {
    if (parts[p].kind == parts[best].kind && parts[p].mean == parts[best].mean) share += shares[p];
    const bool rival = parts[p].kind != SlipKind::any && parts[p].kind != parts[best].kind;
    if (rival && fit(p) > kFitsAsWell * fit(best)) return nullptr;
  }
  return share >= kClearKind ? &parts[best] : nullptr;
}

/// What was read when one end was `pull`'s.
Between read_instead(const readings::Observation& written, const OtherPull& pull) {
  const bool turned_to_held = written.at && pull.held != written.from;
  return turned_to_held ? Between{pull.pulled_to, pull.held, written.at}
                        : Between{pull.held, pull.pulled_to, written.at};
}

void name_wrong_stake(Cause& cause, const adjustment::Network& network, double slip) {
  const readings::Observation& written = network.observations[cause.index];
  const double same = written.is_angle() ? kSameSight_rad : kSamePull_m;
  std::vector<OtherPull> pulls = other_pulls(network, cause.index);
  pulls.erase(
      std::remove_if(pulls.begin(), pulls.end(),
                     [&](const OtherPull& pull) { return std::abs(pull.slip - slip) > same; }),
      pulls.end());
  if (pulls.size() == 1) {
    cause.what = Cause::What::wrong_stake;
    cause.held = pulls.front().held;
    cause.other = pulls.front().pulled_to;
  } else if (pulls.size() <= kMostPullsNamed) {
    for (const OtherPull& pull : pulls)
      cause.slip->instead_of.push_back(read_instead(written, pull));
  }
}

void name_slip(Cause& cause, const adjustment::Network& network, const Component& part) {
  cause.slip = SlipLook{part.kind, times_of(part)};
  cause.size = part.mean[0];
  cause.size_sd = part.sd;
  if (part.kind == SlipKind::wrong_stake) name_wrong_stake(cause, network, part.mean[0]);
}

/// Unit vectors in which a point's displacement is told.
struct Ways {
  base::Point outward;
  base::Point sideways;
};

Ways ways(const adjustment::Network& network, std::size_t point) {
  if (network.points[point].role == adjustment::Role::corner) {
    std::vector<base::Point> corners = planned_places(network);
    corners.resize(network.corner_count);
    const base::Point radius = network.points[point].planned - base::middle_of(corners);
    const double length = base::norm_m(radius);
    if (length > 0.0) {
      const base::Point outward = (1.0 / length) * radius;
      return {outward, base::clockwise(outward)};
    }
  }
  return {{0.0, 1.0}, {1.0, 0.0}};  // forward, right
}

struct Displacement {
  base::Point mean;
  algebra::Symmetric spread;
};

/// Keeps only the direction that the readings show, when they show one only.
bool keep_shown_direction(Displacement& d) {
  const algebra::Axes axes = algebra::axes_of(d.spread);
  if (axes.major < kOneWayRatio * axes.minor || axes.major < kOneWay_m) return false;
  const base::Point shown{-std::sin(axes.angle_rad), std::cos(axes.angle_rad)};
  const double variance = axes.minor * axes.minor;
  d.mean = base::dot(d.mean, shown) * shown;
  d.spread = {variance * shown.x_m * shown.x_m, variance * shown.x_m * shown.y_m,
              variance * shown.y_m * shown.y_m};
  return true;
}

void place_stake(Cause& cause, const adjustment::Network& network, Displacement d) {
  cause.one_way_only = keep_shown_direction(d);
  const Ways way = ways(network, cause.index);
  const auto sd = [&](base::Point u) {
    const auto [xx, xy, yy] = d.spread;
    return std::sqrt(
        std::max(0.0, u.x_m * u.x_m * xx + 2.0 * u.x_m * u.y_m * xy + u.y_m * u.y_m * yy));
  };
  cause.outward_m = base::dot(d.mean, way.outward);
  cause.sideways_m = base::dot(d.mean, way.sideways);
  cause.outward_sd_m = sd(way.outward);
  cause.sideways_sd_m = sd(way.sideways);
}

Cause labels_cause(const ChangedLabels& labels) {
  Cause cause;
  cause.what = Cause::What::labels;
  cause.index = labels.first;
  cause.other = labels.second;
  return cause;
}

/// The causes of an entry with their sizes, kinds of slip and directions.
std::vector<Cause> causes(const Arrangement& arrangement, const Hypothesis& hypothesis) {
  std::vector<Cause> result;
  if (arrangement.labels) result.push_back(labels_cause(*arrangement.labels));
  if (hypothesis.causes.empty()) return result;
  const Posterior sizes = plain_sizes(arrangement.ground(), hypothesis);
  std::size_t column = 0;
  for (std::size_t c = 0; c < hypothesis.causes.size(); ++c) {
    const Candidate& candidate = arrangement.catalogue[hypothesis.causes[c]];
    Cause cause;
    cause.what = candidate.what;
    cause.index = candidate.index;
    cause.size = sizes.mean[column];
    cause.size_sd = std::sqrt(sizes.covariance[column][column]);
    if (candidate.what == Cause::What::rows) {
      cause.other = candidate.other;
    } else if (candidate.what == Cause::What::stake) {
      place_stake(cause, arrangement.network,
                  {{sizes.mean[column], sizes.mean[column + 1]},
                   {sizes.covariance[column][column], sizes.covariance[column][column + 1],
                    sizes.covariance[column + 1][column + 1]}});
      cause.size = 0.0;
      cause.size_sd = 0.0;
    } else if (const Component* part = clear_part(arrangement, hypothesis, c)) {
      name_slip(cause, arrangement.network, *part);
    }
    result.push_back(cause);
    column += candidate.dimensions;
  }
  return result;
}

/// What the entry makes of every reading, as an offset from what is planned for its points as
/// written, in meters or radians.
std::vector<double> effect(const adjustment::Network& network, const Arrangement& arrangement,
                           const Hypothesis& hypothesis) {
  const std::vector<base::Point> moved = displacements(arrangement.ground(), hypothesis);
  std::vector<double> added(network.observations.size(), 0.0);
  const std::vector<Row>& rows = arrangement.model.rows;
  std::size_t column = 0;
  for (const std::size_t index : hypothesis.causes) {
    const Candidate& cause = arrangement.catalogue[index];
    const double size = hypothesis.sizes.mean[column];
    const double second = cause.dimensions == 2 ? hypothesis.sizes.mean[column + 1] : 0.0;
    if (cause.what == Cause::What::reading) added[cause.index] += size;
    if (cause.what == Cause::What::rows) {
      added[cause.index] += size;
      added[cause.other] += second;
    }
    for (std::size_t i = 0; i < rows.size(); ++i) {
      if (rows[i].seen.instrument != cause.index) continue;
      const readings::Expected& planned = rows[i].planned;
      if (cause.what == Cause::What::instrument_zero) added[i] += size * planned.by_zero;
      if (cause.what == Cause::What::instrument_scale) added[i] += size * planned.by_scale;
    }
    column += cause.dimensions;
  }
  const std::vector<base::Point> planned = planned_places(network);
  std::vector<base::Point> places = planned;
  for (std::size_t p = 0; p < places.size(); ++p) places[p] = places[p] + moved[p];
  for (std::size_t i = 0; i < rows.size(); ++i)
    added[i] += rows[i].seen.difference(readings::expected(rows[i].seen, places).value,
                                        readings::expected(network.observations[i], planned).value);
  return added;
}

// What is listed, and whether the readings are of this job at all.

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
