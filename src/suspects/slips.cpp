#include "slips.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "model.hpp"
#include "stakewright/base/angle.hpp"
#include "stakewright/base/turning.hpp"

namespace stakewright::suspects {
namespace {

using base::kDegree_rad;

/// A size of no kind of its own: how often, and its standard deviation.
struct Width {
  double share;
  double sd;
};
/// Gathers parts; what a kind does not use goes to the slips of no kind.
class Mixture {
 public:
  void add(SlipKind kind, double mean, double sd, double share) {
    parts_.push_back({{mean, 0.0}, sd, share, kind});
  }
  /// One share split evenly over several sizes.
  void add_all(SlipKind kind, const std::vector<double>& sizes, double sd, double share) {
    for (const double size : sizes) add(kind, size, sd, share / static_cast<double>(sizes.size()));
  }
  template <std::size_t n>
  void add_widths(const Width (&widths)[n]) {
    for (const Width& width : widths) add(SlipKind::any, 0.0, width.sd, width.share);
  }

  [[nodiscard]] std::vector<Component> normalized() const {
    double any = 0.0;
    double kinds = 0.0;
    for (const Component& part : parts_)
      (part.kind == SlipKind::any ? any : kinds) += part.log_share;
    std::vector<Component> result = parts_;
    for (Component& part : result)
      part.log_share = std::log(part.kind == SlipKind::any ? part.log_share * (1.0 - kinds) / any
                                                           : part.log_share);
    return result;
  }

 private:
  std::vector<Component> parts_;  ///< `log_share` holds the share until `normalized`
};

/// Slips of every pull with one end, or every angle with one sight, on a stake that was not meant.
std::vector<double> wrong_stakes(const adjustment::Network& network, std::size_t reading) {
  std::vector<double> slips;
  for (const OtherPull& pull : other_pulls(network, reading)) slips.push_back(pull.slip);
  return slips;
}

constexpr double kInch_m = 0.0254;
constexpr double kFoot_m = 0.3048;

/// A slip of a whole mark is as exact as the mark.
constexpr double kMark_m = 0.0005;

/// Slips under this are lost among the errors of any tape, and two lengths nearer than this are
/// one length.
constexpr double kSmallestSlip_m = 0.004;

/// A figure this near to a mark was read on it.
constexpr double kOnTheMark_m = 0.0002;

/// A slip of no kind of its own.  Small ones are the commonest, and a reading may be wrong by
/// anything.
constexpr Width kAnySlip[] = {{0.26, 0.018}, {0.20, 0.040}, {0.10, 0.250}};
constexpr Width kStake[] = {{0.25, 0.020}, {0.48, 0.050}, {0.27, 0.250}};
constexpr Width kZero[] = {{0.30, 0.005}, {0.30, 0.030}};
constexpr Width kScale[] = {{0.60, 0.0015}, {0.40, 0.006}};

/// Whole marks: a share, split between too long and too short.
struct Mark {
  SlipKind kind;
  double size_m;
  double share;
};
constexpr Mark kFeetMarks[] = {{SlipKind::foot, kFoot_m, 0.09},
                               {SlipKind::foot, 2.0 * kFoot_m, 0.01},
                               {SlipKind::inch, kInch_m, 0.10},
                               {SlipKind::inch, 2.0 * kInch_m, 0.02}};
constexpr Mark kMetricMarks[] = {{SlipKind::decimeter, 0.1, 0.11},
                                 {SlipKind::decimeter, 0.2, 0.01},
                                 {SlipKind::meter, 1.0, 0.03},
                                 {SlipKind::centimeter, 0.01, 0.03},
                                 {SlipKind::centimeter, 0.02, 0.01}};
constexpr double kBurned = 0.04;
constexpr double kDigits = 0.04;
constexpr double kEighth = 0.02;
constexpr double kTenths = 0.02;
constexpr double kWrongStake = 0.05;

/// Whole marks either way.  A mark that others burned is that slip, and not a whole unit besides.
void add_marks(Mixture& mixture, bool in_feet_inches, const std::vector<double>& burned) {
  const auto add = [&](const Mark& mark) {
    for (const double size : {mark.size_m, -mark.size_m}) {
      const bool held = std::any_of(burned.begin(), burned.end(),
                                    [&](double b) { return std::abs(b - size) < kOnTheMark_m; });
      mixture.add(held ? SlipKind::burned : mark.kind, size, kMark_m, 0.5 * mark.share);
    }
  };
  if (in_feet_inches)
    std::for_each(std::begin(kFeetMarks), std::end(kFeetMarks), add);
  else
    std::for_each(std::begin(kMetricMarks), std::end(kMetricMarks), add);
}

/// Those that can be noticed, each once.
std::vector<double> noticeable(std::vector<double> slips, double least, double same) {
  std::erase_if(slips, [least](double slip) { return std::abs(slip) < least; });
  std::sort(slips.begin(), slips.end());
  slips.erase(
      std::unique(slips.begin(), slips.end(), [same](double a, double b) { return b - a < same; }),
      slips.end());
  return slips;
}

/// Slips when two neighboring digits of the millimeters were changed round.
std::vector<double> changed_millimeter_digits(double read_m) {
  std::vector<double> slips;
  const auto written = static_cast<long long>(std::llround(read_m * 1000.0));
  for (long long place = 1; place * 10 <= written; place *= 10) {
    const long long low = written / place % 10;
    const long long high = written / (place * 10) % 10;
    slips.push_back(static_cast<double>((high - low) * place * 9) / 1000.0);
  }
  return slips;
}

/// Slips when the two digits of the feet, the ten inches, or feet and inches were changed round.
std::vector<double> changed_feet_digits(double read_m) {
  std::vector<double> slips;
  const double feet = std::floor((read_m + kOnTheMark_m) / kFoot_m);
  const double inches =
      std::max(0.0, std::floor((read_m - feet * kFoot_m + kOnTheMark_m) / kInch_m));
  if (feet >= 10.0 && feet < 100.0) {
    const double tens = std::floor(feet / 10.0);
    const double ones = feet - 10.0 * tens;
    slips.push_back((feet - (10.0 * ones + tens)) * kFoot_m);
  }
  if (inches == 10.0) slips.push_back(9.0 * kInch_m);
  if (inches == 1.0) slips.push_back(-9.0 * kInch_m);
  if (feet < 12.0) slips.push_back((feet - inches) * (kFoot_m - kInch_m));
  return slips;
}

/// Slips when an eighth was taken for a sixteenth of the same count, or the other way about.
std::vector<double> eighth_for_sixteenth(double read_m) {
  const double sixteenths = read_m / kInch_m * 16.0;
  const double nearest = std::round(sixteenths);
  if (std::abs(sixteenths - nearest) * kInch_m / 16.0 > kOnTheMark_m) return {};
  const auto part = static_cast<int>(std::fmod(nearest, 16.0));
  if (part % 2 == 1 && part < 8) return {-part * kInch_m / 16.0};
  if (part % 2 == 0 && part / 2 % 2 == 1) return {part / 2 * kInch_m / 16.0};
  return {};
}

/// Slips when tenths of a foot were written as inches, or inches as tenths of a foot.
std::vector<double> tenths_for_inches(double read_m) {
  const double inches = std::fmod(read_m + kOnTheMark_m, kFoot_m) / kInch_m;
  std::vector<double> slips = {inches / 6.0 * kInch_m};         // written i/12 ft; meant 10 i/12 in
  if (inches < 10.0) slips.push_back(-0.2 * inches * kInch_m);  // written i in; meant i/10 ft
  return slips;
}

/// A correction this large is a burned mark, not heat or sag.
constexpr double kLeastBurned_m = 0.009;

/// Slips when a mark that other readings were burned on was not subtracted here, or this one's was
/// subtracted though the zero was held.
std::vector<double> burned_amiss(const adjustment::Network& network, std::size_t reading) {
  const auto burned = [&](std::size_t i) {
    const double amount = network.observations[i].read - network.observations[i].corrected;
    return amount > kLeastBurned_m ? amount : 0.0;
  };
  const double own = burned(reading);
  if (own > 0.0) return {-own};
  std::vector<double> slips;
  for (std::size_t i = 0; i < network.observations.size(); ++i)
    if (burned(i) > 0.0) slips.push_back(burned(i));
  return slips;
}

std::vector<Component> length_slip_sizes(const adjustment::Network& network, std::size_t reading,
                                         const Setting& setting) {
  const readings::Observation& own = network.observations[reading];
  const bool in_feet_inches = own.written == base::Units::feet_inches;
  Mixture mixture;
  mixture.add_widths(kAnySlip);
  const auto exact = [&](SlipKind kind, std::vector<double> sizes, double share,
                         double sd_m = kMark_m) {
    mixture.add_all(kind, noticeable(std::move(sizes), kSmallestSlip_m, kOnTheMark_m), sd_m, share);
  };
  const std::vector<double> burned =
      noticeable(burned_amiss(network, reading), kSmallestSlip_m, kOnTheMark_m);
  add_marks(mixture, in_feet_inches, burned);
  exact(SlipKind::burned, burned, kBurned);
  if (in_feet_inches) {
    exact(SlipKind::digits, changed_feet_digits(own.read), kDigits);
    exact(SlipKind::eighth, eighth_for_sixteenth(own.read), kEighth);
    exact(SlipKind::tenths, tenths_for_inches(own.read), kTenths);
  } else {
    exact(SlipKind::digits, changed_millimeter_digits(own.read), kDigits);
  }
  // The stake pulled to stands off its own place, not the other's.
  exact(SlipKind::wrong_stake, wrong_stakes(network, reading), kWrongStake,
        std::numbers::sqrt2 * setting.staking.spread_m);
  return mixture.normalized();
}

// Angles.

constexpr double kMinute_rad = kDegree_rad / 60.0;

/// A slip of a whole mark is as exact as the mark: ten seconds.
constexpr double kMark_rad = kMinute_rad / 6.0;

/// Slips under this are lost among the errors of any circle on a short sight, and two angles nearer
/// than this are one angle.
constexpr double kSmallestSlip_rad = 3.0 * kMinute_rad;

/// Two slips nearer than this are one.
constexpr double kSameSlip_rad = 0.05 * kMinute_rad;

constexpr Width kAnyAngleSlip[] = {
    {0.26, 6.0 * kMinute_rad}, {0.20, 30.0 * kMinute_rad}, {0.10, 4.0 * kDegree_rad}};

/// Whole marks: a share, split between too large and too small.
struct AngleMark {
  SlipKind kind;
  double size_rad;
  double share;
};
constexpr AngleMark kAngleMarks[] = {{SlipKind::degree, kDegree_rad, 0.10},
                                     {SlipKind::degree, 2.0 * kDegree_rad, 0.01},
                                     {SlipKind::ten_degrees, 10.0 * kDegree_rad, 0.04},
                                     {SlipKind::half_degree, 30.0 * kMinute_rad, 0.05},
                                     {SlipKind::ten_minutes, 10.0 * kMinute_rad, 0.09},
                                     {SlipKind::ten_minutes, 20.0 * kMinute_rad, 0.01},
                                     {SlipKind::half_turn, std::numbers::pi, 0.02}};
constexpr double kTurnedBack = 0.08;
constexpr double kAngleDigits = 0.04;
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

/// The shorter of the two sights, as planned.
double nearer_sight_m(const adjustment::Network& network, const readings::Observation& angle) {
  const auto sight = [&](std::size_t point) {
    return base::distance_m(network.points[*angle.at].planned, network.points[point].planned);
  };
  return std::min(sight(angle.from), sight(angle.to));
}

std::vector<Component> angle_slip_sizes(const adjustment::Network& network, std::size_t reading,
                                        double spread_m) {
  const readings::Observation& angle = network.observations[reading];
  Mixture mixture;
  mixture.add_widths(kAnyAngleSlip);
  for (const AngleMark& mark : kAngleMarks)
    for (const double size : {mark.size_rad, -mark.size_rad})
      mixture.add(mark.kind, size, kMark_rad, 0.5 * mark.share);
  const auto exact = [&](SlipKind kind, std::vector<double> sizes, double sd, double share) {
    for (double& size : sizes) size = base::wrapped_rad(size);
    mixture.add_all(kind, noticeable(std::move(sizes), kSmallestSlip_rad, kSameSlip_rad), sd,
                    share);
  };
  // Read the other way round, the true angle is a turn less what was read.
  exact(SlipKind::turned_back, {2.0 * angle.read}, kMark_rad, kTurnedBack);
  exact(SlipKind::digits, changed_digits(angle.read), kMark_rad, kAngleDigits);
  // The stake sighted stands off its own place, not the other's.
  const double off_rad =
      std::numbers::sqrt2 * spread_m / std::max(nearer_sight_m(network, angle), spread_m);
  exact(SlipKind::wrong_stake, wrong_stakes(network, reading), off_rad, kWrongSight);
  return mixture.normalized();
}

}  // namespace

std::vector<OtherPull> other_pulls(const adjustment::Network& network, std::size_t reading) {
  const readings::Observation& seen = network.observations[reading];
  const std::vector<base::Point> planned = planned_places(network);
  const std::vector<std::size_t> own = seen.points();
  const double least = 4.0 * (seen.is_angle() ? kSmallestSlip_rad : kSmallestSlip_m);
  std::vector<OtherPull> pulls;
  for (std::size_t stake = 0; stake < network.points.size(); ++stake) {
    if (std::find(own.begin(), own.end(), stake) != own.end()) continue;
    if (network.points[stake].role == adjustment::Role::pin) continue;
    for (const std::size_t held : {seen.from, seen.to}) {
      readings::Observation other = seen;
      (held == seen.from ? other.to : other.from) = stake;
      const double slip = seen.difference(readings::expected(other, planned).value,
                                          readings::expected(seen, planned).value);
      if (std::abs(slip) > least) pulls.push_back({held, stake, slip});
    }
  }
  return pulls;
}

std::vector<Component> slip_sizes(const adjustment::Network& network, std::size_t reading,
                                  const Setting& setting) {
  return network.observations[reading].is_angle()
             ? angle_slip_sizes(network, reading, setting.staking.spread_m)
             : length_slip_sizes(network, reading, setting);
}

std::vector<Component> zero_sizes(bool in_feet_inches) {
  Mixture mixture;
  mixture.add_widths(kZero);
  add_marks(mixture, in_feet_inches, {});
  return mixture.normalized();
}

std::vector<Component> scale_sizes() {
  Mixture mixture;
  mixture.add_widths(kScale);
  return mixture.normalized();
}

std::vector<Component> stake_sizes() {
  Mixture mixture;
  mixture.add_widths(kStake);
  return mixture.normalized();
}

}  // namespace stakewright::suspects
