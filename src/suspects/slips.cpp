#include "slips.hpp"

#include "angle_slips.hpp"
#include "mixture.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace stakewright::suspects {
namespace {

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

void keep_noticeable(std::vector<double>& slips) {
  slips.erase(std::remove_if(slips.begin(), slips.end(),
                             [](double slip) { return std::abs(slip) < kSmallestSlip_m; }),
              slips.end());
  std::sort(slips.begin(), slips.end());
  slips.erase(std::unique(slips.begin(), slips.end(),
                          [](double a, double b) { return b - a < kOnTheMark_m; }),
              slips.end());
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

}  // namespace

std::vector<OtherPull> other_pulls(const adjustment::Network& network, std::size_t reading) {
  const readings::Observation& observation = network.observations[reading];
  if (observation.is_angle()) return other_sights(network, reading);
  std::vector<OtherPull> pulls;
  const auto place = [&](std::size_t point) { return network.points[point].planned; };
  const double planned = base::distance_m(place(observation.from), place(observation.to));
  for (std::size_t stake = 0; stake < network.points.size(); ++stake) {
    if (stake == observation.from || stake == observation.to) continue;
    if (network.points[stake].role == adjustment::Role::pin) continue;
    for (const std::size_t held : {observation.from, observation.to}) {
      const double slip = base::distance_m(place(held), place(stake)) - planned;
      if (std::abs(slip) > 4.0 * kSmallestSlip_m) pulls.push_back({held, stake, slip});
    }
  }
  return pulls;
}

std::vector<Component> slip_sizes(const adjustment::Network& network, std::size_t reading,
                                  const Setting& setting) {
  const readings::Observation& own = network.observations[reading];
  if (own.is_angle()) return angle_slip_sizes(network, reading, setting.staking.spread_m);
  const bool in_feet_inches = own.written == base::Units::feet_inches;
  Mixture mixture;
  mixture.add_widths(kAnySlip);
  const auto exact = [&](SlipKind kind, std::vector<double> sizes, double share) {
    keep_noticeable(sizes);
    mixture.add_all(kind, sizes, kMark_m, share);
  };
  std::vector<double> burned = burned_amiss(network, reading);
  keep_noticeable(burned);
  add_marks(mixture, in_feet_inches, burned);
  exact(SlipKind::burned, burned, kBurned);
  if (in_feet_inches) {
    exact(SlipKind::digits, changed_feet_digits(own.read), kDigits);
    exact(SlipKind::eighth, eighth_for_sixteenth(own.read), kEighth);
    exact(SlipKind::tenths, tenths_for_inches(own.read), kTenths);
  } else {
    exact(SlipKind::digits, changed_millimeter_digits(own.read), kDigits);
  }
  std::vector<double> wrong;
  for (const OtherPull& pull : other_pulls(network, reading)) wrong.push_back(pull.slip);
  keep_noticeable(wrong);
  // The stake pulled to stands off its own place, not the other's.
  mixture.add_all(SlipKind::wrong_stake, wrong, std::numbers::sqrt2 * setting.staking.spread_m,
                  kWrongStake);
  return mixture.normalized();
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
