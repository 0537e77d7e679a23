#include "stakewright/levels/rods.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "stakewright/base/error.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/readings/corrections.hpp"

namespace stakewright::levels {
namespace {

using readings::Instrument;
using readings::Kind;
using readings::Reading;

[[noreturn]] void refuse(const Reading& reading, const std::string& read,
                         const std::string& accepted) {
  throw base::InputError(
      fmt::format("{}: read {}; accepted: {}", readings::name_of(reading), read, accepted));
}

std::size_t index_in(std::vector<std::string>& names, const std::string& name) {
  const auto found = std::find(names.begin(), names.end(), name);
  if (found == names.end()) {
    names.push_back(name);
    return names.size() - 1;
  }
  return static_cast<std::size_t>(found - names.begin());
}

const Instrument& instrument_of(const Reading& reading,
                                const std::vector<Instrument>& instruments) {
  const std::string name =
      reading.instrument.empty() ? readings::default_instrument(Kind::level) : reading.instrument;
  const Instrument* found = readings::instrument_named(instruments, name);
  if (found == nullptr || found->kind != Kind::level)
    refuse(reading, "instrument " + base::in_quotes(name), "an instrument of kind level");
  return *found;
}

double demand_length(const Reading& reading, double length_m, const char* what) {
  if (std::isfinite(length_m) && length_m > 0.0 && length_m <= base::kLongestLength_m)
    return length_m;
  refuse(reading, fmt::format("{} of {} m", what, length_m), "a length above 0");
}

std::vector<std::string> points_of(const layout::Plan& plan) {
  std::vector<std::string> points = layout::corner_labels(plan.polygon.sides);
  points.emplace_back(layout::kCenterLabel);
  for (const layout::Pin& pin : plan.pins) points.push_back(pin.name);
  return points;
}

/// Whether a set-up name stands in more than one round.
bool in_other_rounds(const std::vector<Reading>& all, const Reading& reading) {
  return std::any_of(all.begin(), all.end(), [&](const Reading& other) {
    return other.kind == Kind::level && other.from == reading.from && other.round != reading.round;
  });
}

std::string set_up_name(const std::vector<Reading>& all, const Reading& reading) {
  return in_other_rounds(all, reading) ? fmt::format("{} of round {}", reading.from, reading.round)
                                       : reading.from;
}

}  // namespace

double rod_sd_m(const Instrument& instrument, double sight_m) {
  return std::hypot(instrument.constant_m, instrument.per_length * sight_m);
}

Rods rods(const layout::Plan& plan, const std::vector<Reading>& readings,
          const std::vector<Instrument>& instruments, const Wanted& wanted) {
  Rods result;
  result.points = points_of(plan);
  result.corner_count = static_cast<std::size_t>(plan.polygon.sides);
  for (std::size_t row = 0; row < readings.size(); ++row) {
    const Reading& reading = readings[row];
    if (reading.kind != Kind::level) continue;
    if (result.readings.size() == kMostRodReadings)
      refuse(reading, "one rod reading more",
             fmt::format("up to {} rod readings", kMostRodReadings));
    const Instrument& instrument = instrument_of(reading, instruments);
    RodReading rod;
    rod.set_up = index_in(result.set_ups, set_up_name(readings, reading));
    rod.point = index_in(result.points, reading.to);
    rod.row = row;
    rod.instrument = instrument.name;
    rod.read_m = demand_length(reading, reading.value_m, "a rod reading");
    rod.sd_m = rod_sd_m(
        instrument,
        demand_length(reading, reading.sight_m.value_or(plan.polygon.corner_radius_m), "a sight"));
    if (!(std::isfinite(rod.sd_m) && rod.sd_m > 0.0))
      refuse(reading, fmt::format("a standard deviation of {} m", rod.sd_m),
             "an instrument whose standard deviation is above 0");
    result.readings.push_back(rod);
  }
  if (!wanted.bench_mark.empty()) result.bench_mark = index_in(result.points, wanted.bench_mark);
  return result;
}

}  // namespace stakewright::levels
