#include "words.hpp"

#include <fmt/format.h>

#include <cctype>
#include <cmath>

#include "stakewright/base/angle.hpp"

namespace stakewright::suspects {
namespace {

constexpr double kInch_m = 0.0254;

/// Steps a size is said in.
constexpr double kInchSteps_m[] = {kInch_m / 16.0, kInch_m / 8.0, kInch_m / 4.0, kInch_m / 2.0,
                                   kInch_m};
constexpr double kMetricSteps_m[] = {0.001, 0.005, 0.010, 0.050};

template <std::size_t n>
double step_for(const double (&steps)[n], double sd) {
  double step = steps[0];
  for (const double next : steps)
    if (next <= 2.0 * sd) step = next;
  return step;
}

const char* ordinal(std::size_t count) {
  constexpr const char* kWords[] = {"1st", "2nd", "3rd", "4th", "5th"};
  return count < std::size(kWords) ? kWords[count] : "a later";
}

const std::string& label(const adjustment::Network& network, std::size_t point) {
  return network.points[point].label;
}

const char* kind_word(const adjustment::Network& network, std::size_t reading) {
  const readings::Observation& observation = network.observations[reading];
  if (observation.is_angle()) return "angle";
  const bool laser = network.instruments[observation.instrument].kind == readings::Kind::laser;
  return laser ? "laser reading" : "tape";
}

/// "stake D" or "the center pin".
std::string point_name(const adjustment::Network& network, std::size_t point) {
  if (network.points[point].role == adjustment::Role::center)
    return "the center pin " + label(network, point);
  return "stake " + label(network, point);
}

struct Way {
  const char* ahead;
  const char* back;
};

/// "1" outward and 1/2" clockwise": the directions that the numbers show.
std::string displacement(const adjustment::Network& network, const Cause& cause,
                         base::Units units) {
  const bool center = network.points[cause.index].role == adjustment::Role::center;
  const Way along = center ? Way{"forward", "back"} : Way{"outward", "inward"};
  const Way across = center ? Way{"right", "left"} : Way{"clockwise", "counterclockwise"};
  const double whole = std::hypot(cause.outward_m, cause.sideways_m);
  std::string text;
  const auto add = [&](double amount, double sd, const Way& way) {
    // A part that is small beside the whole and beside its own doubt is left out.
    if (std::abs(amount) < 0.35 * whole || std::abs(amount) < 0.5 * sd) return;
    text += fmt::format("{}{} {}", text.empty() ? "" : " and ", about(amount, sd, units),
                        amount > 0.0 ? way.ahead : way.back);
  };
  add(cause.outward_m, cause.outward_sd_m, along);
  add(cause.sideways_m, cause.sideways_sd_m, across);
  if (text.empty()) text = about(whole, cause.outward_sd_m, units) + " one way or another";
  return text;
}

std::string reading_clause(const adjustment::Network& network, const Cause& cause,
                           base::Units units) {
  const bool angle = network.observations[cause.index].is_angle();
  const char* way = cause.size > 0.0 ? (angle ? "large" : "long") : (angle ? "small" : "short");
  std::string text = fmt::format(
      "the {} {} is misread: it reads about {} too {}", kind_word(network, cause.index),
      pair_name(network, cause.index),
      angle ? about_angle(cause.size, cause.size_sd) : about(cause.size, cause.size_sd, units),
      way);
  if (!cause.slip.empty()) text += " (" + cause.slip + ")";
  return text;
}

std::string scale_clause(const adjustment::Network& network, const Cause& cause) {
  return fmt::format("everything read with {} is about {:.2g} % too {}: its scale is off",
                     network.instruments[cause.index].name, 100.0 * std::abs(cause.size),
                     cause.size > 0.0 ? "long" : "short");
}

std::string zero_clause(const adjustment::Network& network, const Cause& cause, base::Units units) {
  std::string text =
      fmt::format("everything read with {} is about {} too {}: its hook or its zero is off",
                  network.instruments[cause.index].name, about(cause.size, cause.size_sd, units),
                  cause.size > 0.0 ? "long" : "short");
  if (!cause.slip.empty()) text += " (" + cause.slip + ")";
  return text;
}

std::string clause(const adjustment::Network& network, const Cause& cause, base::Units units) {
  switch (cause.what) {
    case Cause::What::reading:
      return reading_clause(network, cause, units);
    case Cause::What::stake:
      return fmt::format(
          "{} stands about {}{}", point_name(network, cause.index),
          displacement(network, cause, units),
          cause.one_way_only ? " of its place, as far as its readings show" : " of its place");
    case Cause::What::instrument_zero:
      return zero_clause(network, cause, units);
    case Cause::What::instrument_scale:
      return scale_clause(network, cause);
    case Cause::What::labels:
      return fmt::format("the labels of stakes {} and {} are changed over",
                         label(network, cause.index), label(network, *cause.other));
    case Cause::What::rows:
      return fmt::format("the readings {} and {} are changed over in the list",
                         pair_name(network, cause.index), pair_name(network, *cause.other));
    case Cause::What::wrong_stake:
      break;
  }
  const readings::Observation& written = network.observations[cause.index];
  if (written.is_angle())
    return fmt::format("the angle {} was turned with the sight on {} instead of {}",
                       pair_name(network, cause.index), label(network, *cause.other),
                       label(network, *cause.held == written.from ? written.to : written.from));
  return fmt::format("the tape written down as {} was pulled from {} to {}",
                     pair_name(network, cause.index), label(network, *cause.held),
                     label(network, *cause.other));
}

std::string noun_of(const adjustment::Network& network, const Cause& cause, base::Units units) {
  switch (cause.what) {
    case Cause::What::reading:
      return "a misread " + pair_name(network, cause.index);
    case Cause::What::stake:
      return fmt::format("{} standing {}", point_name(network, cause.index),
                         displacement(network, cause, units));
    case Cause::What::instrument_zero:
      return fmt::format("the zero of {} being off", network.instruments[cause.index].name);
    case Cause::What::instrument_scale:
      return fmt::format("the scale of {} being off", network.instruments[cause.index].name);
    case Cause::What::labels:
      return fmt::format("labels {} and {} changed over", label(network, cause.index),
                         label(network, *cause.other));
    case Cause::What::rows:
      return fmt::format("readings {} and {} changed over", pair_name(network, cause.index),
                         pair_name(network, *cause.other));
    case Cause::What::wrong_stake:
      break;
  }
  return fmt::format("{} {} to {}", pair_name(network, cause.index),
                     network.observations[cause.index].is_angle() ? "turned" : "pulled",
                     label(network, *cause.other));
}

/// Repeats: a pair either way about, an angle from and to the same points at the same.
bool of_the_same(const readings::Observation& a, const readings::Observation& b) {
  if (a.at != b.at) return false;
  const bool same = a.from == b.from && a.to == b.to;
  return same || (!a.is_angle() && a.from == b.to && a.to == b.from);
}

}  // namespace

std::string pair_name(const adjustment::Network& network, std::size_t reading) {
  const readings::Observation& own = network.observations[reading];
  std::size_t before = 0;
  std::size_t count = 0;
  for (std::size_t i = 0; i < network.observations.size(); ++i) {
    const readings::Observation& other = network.observations[i];
    if (!of_the_same(own, other)) continue;
    ++count;
    if (i < reading) ++before;
  }
  std::string name = label(network, own.from) + "–";
  if (own.at) name += label(network, *own.at) + "–";
  name += label(network, own.to);
  return count < 2 ? name : fmt::format("{} ({} reading)", name, ordinal(before));
}

std::string about(double length_m, double sd_m, base::Units units) {
  const double size = std::abs(length_m);
  const double step = units == base::Units::feet_inches ? step_for(kInchSteps_m, sd_m)
                                                        : step_for(kMetricSteps_m, sd_m);
  double rounded = std::round(size / step) * step;
  if (rounded == 0.0) rounded = size;  // never "about 0"
  return base::text_from_length(rounded, units);
}

std::string about_angle(double angle_rad, double sd_rad) {
  constexpr double kMinute_rad = base::kDegree_rad / 60.0;
  constexpr double kSteps_rad[] = {kMinute_rad / 6.0, kMinute_rad, 10.0 * kMinute_rad,
                                   base::kDegree_rad};
  const double size = std::abs(angle_rad);
  const double step = step_for(kSteps_rad, sd_rad);
  const double rounded = std::round(size / step) * step;
  return base::words_from_angle(rounded == 0.0 ? size : rounded);  // never "about 0"
}

std::string sentence(const adjustment::Network& network, const std::vector<Cause>& causes,
                     base::Units units) {
  if (causes.empty())
    return "Nothing is wrong: the readings agree with the plan as well as such readings do.";
  std::string text;
  for (const Cause& cause : causes)
    text += (text.empty() ? "" : "; and ") + clause(network, cause, units);
  text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
  return text + ".";
}

std::string noun(const adjustment::Network& network, const std::vector<Cause>& causes,
                 base::Units units) {
  if (causes.empty()) return "nothing wrong";
  std::string text;
  for (const Cause& cause : causes)
    text += (text.empty() ? "" : " with ") + noun_of(network, cause, units);
  return text;
}

}  // namespace stakewright::suspects
