#include "describe.hpp"

#include <algorithm>
#include <cmath>

#include "slips.hpp"
#include "stakewright/base/angle.hpp"

namespace stakewright::suspects {
namespace {

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
    base::Point center;
    for (std::size_t i = 0; i < network.corner_count; ++i)
      center =
          center + (1.0 / static_cast<double>(network.corner_count)) * network.points[i].planned;
    const base::Point radius = network.points[point].planned - center;
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
  double xx = 0.0;
  double xy = 0.0;
  double yy = 0.0;
};

/// Keeps only the direction that the readings show, when they show one only.
bool keep_shown_direction(Displacement& d) {
  const double half = 0.5 * (d.xx + d.yy);
  const double root = std::hypot(0.5 * (d.xx - d.yy), d.xy);
  const double major = std::sqrt(std::max(0.0, half + root));
  const double minor = std::sqrt(std::max(0.0, half - root));
  if (major < kOneWayRatio * minor || major < kOneWay_m) return false;
  const double turn = 0.5 * std::atan2(2.0 * d.xy, d.xx - d.yy);  // of the major axis, from x
  const base::Point shown{-std::sin(turn), std::cos(turn)};
  d.mean = base::dot(d.mean, shown) * shown;
  d.xx = minor * minor * shown.x_m * shown.x_m;
  d.xy = minor * minor * shown.x_m * shown.y_m;
  d.yy = minor * minor * shown.y_m * shown.y_m;
  return true;
}

void place_stake(Cause& cause, const adjustment::Network& network, Displacement d) {
  cause.one_way_only = keep_shown_direction(d);
  const Ways way = ways(network, cause.index);
  const auto sd = [&](base::Point u) {
    return std::sqrt(
        std::max(0.0, u.x_m * u.x_m * d.xx + 2.0 * u.x_m * u.y_m * d.xy + u.y_m * u.y_m * d.yy));
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

}  // namespace

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
                   sizes.covariance[column][column],
                   sizes.covariance[column][column + 1],
                   sizes.covariance[column + 1][column + 1]});
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

}  // namespace stakewright::suspects
