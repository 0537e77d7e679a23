#include "angle_slips.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "mixture.hpp"
#include "model.hpp"
#include "stakewright/base/angle.hpp"
#include "stakewright/base/turning.hpp"

namespace stakewright::suspects {
namespace {

using base::kDegree_rad;

constexpr double kMinute_rad = kDegree_rad / 60.0;

/// A slip of a whole mark is as exact as the mark: ten seconds.
constexpr double kMark_rad = kMinute_rad / 6.0;

/// Slips under this are lost among the errors of any circle on a short sight, and two angles nearer
/// than this are one angle.
constexpr double kSmallestSlip_rad = 3.0 * kMinute_rad;

/// Two slips nearer than this are one.
constexpr double kSameSlip_rad = 0.05 * kMinute_rad;

constexpr Width kAnySlip[] = {
    {0.26, 6.0 * kMinute_rad}, {0.20, 30.0 * kMinute_rad}, {0.10, 4.0 * kDegree_rad}};

/// Whole marks: a share, split between too large and too small.
struct Mark {
  SlipKind kind;
  double size_rad;
  double share;
};
constexpr Mark kMarks[] = {{SlipKind::degree, kDegree_rad, 0.10},
                           {SlipKind::degree, 2.0 * kDegree_rad, 0.01},
                           {SlipKind::ten_degrees, 10.0 * kDegree_rad, 0.04},
                           {SlipKind::half_degree, 30.0 * kMinute_rad, 0.05},
                           {SlipKind::ten_minutes, 10.0 * kMinute_rad, 0.09},
                           {SlipKind::ten_minutes, 20.0 * kMinute_rad, 0.01},
                           {SlipKind::half_turn, std::numbers::pi, 0.02}};
constexpr double kTurnedBack = 0.08;
constexpr double kDigits = 0.04;
constexpr double kWrongSight = 0.06;

/// What two digits become when they are changed round, less what they were.
int changed_round(int written) { return written % 10 * 10 + written / 10 - written; }

/// Slips when the digits of the degrees or of the minutes were changed round.
std::vector<double> changed_digits(double read_rad) {
  const auto minutes = static_cast<int>(std::floor(read_rad / kMinute_rad + 0.5 / 60.0));
  const int degree = minutes / 60;
  const int minute = minutes % 60;
  std::vector<double> slips;
  const int tens = degree / 100 * 100;  // a third digit stays
  slips.push_back(-changed_round(degree - tens) * kDegree_rad);
  if (minute % 10 < 6) slips.push_back(-changed_round(minute) * kMinute_rad);
  return slips;
}

void keep_noticeable(std::vector<double>& slips) {
  for (double& slip : slips) slip = base::wrapped_rad(slip);
  slips.erase(std::remove_if(slips.begin(), slips.end(),
                             [](double slip) { return std::abs(slip) < kSmallestSlip_rad; }),
              slips.end());
  std::sort(slips.begin(), slips.end());
  slips.erase(std::unique(slips.begin(), slips.end(),
                          [](double a, double b) { return b - a < kSameSlip_rad; }),
              slips.end());
}

/// The shorter of the two sights, as planned.
double nearer_sight_m(const adjustment::Network& network, const readings::Observation& angle) {
  const auto sight = [&](std::size_t point) {
    return base::distance_m(network.points[*angle.at].planned, network.points[point].planned);
  };
  return std::min(sight(angle.from), sight(angle.to));
}

}  // namespace

std::vector<OtherPull> other_sights(const adjustment::Network& network, std::size_t reading) {
  const readings::Observation& angle = network.observations[reading];
  const Row own = row_of(network, angle);
  std::vector<OtherPull> sights;
  for (std::size_t stake = 0; stake < network.points.size(); ++stake) {
    if (stake == angle.from || stake == angle.to || stake == *angle.at) continue;
    if (network.points[stake].role == adjustment::Role::pin) continue;
    for (const std::size_t held : {angle.from, angle.to}) {
      Row other = own;
      (held == angle.from ? other.to : other.from) = stake;
      const double slip = difference(own, value_with(network, other, {}), own.planned);
      if (std::abs(slip) > 4.0 * kSmallestSlip_rad) sights.push_back({held, stake, slip});
    }
  }
  return sights;
}

std::vector<Component> angle_slip_sizes(const adjustment::Network& network, std::size_t reading,
                                        double spread_m) {
  const readings::Observation& angle = network.observations[reading];
  Mixture mixture;
  mixture.add_widths(kAnySlip);
  for (const Mark& mark : kMarks)
    for (const double size : {mark.size_rad, -mark.size_rad})
      mixture.add(mark.kind, size, kMark_rad, 0.5 * mark.share);
  const auto exact = [&](SlipKind kind, std::vector<double> sizes, double sd, double share) {
    keep_noticeable(sizes);
    mixture.add_all(kind, sizes, sd, share);
  };
  // Read the other way round, the true angle is a turn less what was read.
  exact(SlipKind::turned_back, {2.0 * angle.read}, kMark_rad, kTurnedBack);
  exact(SlipKind::digits, changed_digits(angle.read), kMark_rad, kDigits);
  std::vector<double> wrong;
  for (const OtherPull& sight : other_sights(network, reading)) wrong.push_back(sight.slip);
  // The stake sighted stands off its own place, not the other's.
  const double off_rad =
      std::numbers::sqrt2 * spread_m / std::max(nearer_sight_m(network, angle), spread_m);
  exact(SlipKind::wrong_stake, wrong, off_rad, kWrongSight);
  return mixture.normalized();
}

}  // namespace stakewright::suspects
