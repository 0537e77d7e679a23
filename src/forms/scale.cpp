#include "scale.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "stakewright/drawing/page.hpp"

namespace stakewright::forms {
namespace {

constexpr double kFoot_m = 0.3048;

struct InchScale {
  double denominator;
  const char* inches;
};

// The scales of an architect's rule: so many inches of paper to a foot.
constexpr std::array<InchScale, 11> kInchScales{{{4.0, "3"},
                                                 {8.0, "1-1/2"},
                                                 {12.0, "1"},
                                                 {16.0, "3/4"},
                                                 {24.0, "1/2"},
                                                 {32.0, "3/8"},
                                                 {48.0, "1/4"},
                                                 {64.0, "3/16"},
                                                 {96.0, "1/8"},
                                                 {128.0, "3/32"},
                                                 {192.0, "1/16"}}};

// Steps within each power of ten, metric scales and feet to the inch alike.
constexpr std::array<double, 9> kSteps{1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 7.5};

/// The first step times a power of ten that is not below `least`, from `first` up.
double next_step(double least, double first) {
  for (double power = first;; power *= 10.0)
    for (const double step : kSteps)
      if (power * step >= least) return power * step;
}

Scale inch_scale(double least) {
  for (const InchScale& scale : kInchScales)
    if (scale.denominator >= least)
      return {scale.denominator,
              fmt::format("{} in = 1 ft (1:{})", scale.inches, scale.denominator)};
  const double feet = next_step(least / 12.0, 10.0);
  return {12.0 * feet, fmt::format("1 in = {} ft (1:{})", feet, 12.0 * feet)};
}

}  // namespace

double Scale::points_per_meter() const { return drawing::kPointsPerMeter / denominator; }

Scale scale_for(double size_m, double room_pt, base::Units units) {
  const double least = size_m * drawing::kPointsPerMeter / room_pt;
  if (units == base::Units::feet_inches) return inch_scale(least);
  const double denominator = next_step(least, 1.0);
  return {denominator, fmt::format("1:{}", denominator)};
}

double bar_length_m(const Scale& scale, double room_pt, base::Units units) {
  constexpr std::array<double, 3> kRound{1.0, 2.0, 5.0};
  const double unit_m = units == base::Units::feet_inches ? kFoot_m : 0.1;
  const double most_m = room_pt / scale.points_per_meter();
  double best = units == base::Units::feet_inches ? kFoot_m / 12.0 : 0.001;
  for (double power = 1.0; power * unit_m <= most_m; power *= 10.0)
    for (const double step : kRound)
      if (power * step * unit_m <= most_m) best = power * step * unit_m;
  return best;
}

}  // namespace stakewright::forms
