#include "stakewright/levels/rods.hpp"

#include <algorithm>
#include <cmath>

#include "stakewright/base/error.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/readings/corrections.hpp"

namespace stakewright::levels {
namespace {

using base::Fact;
using base::Number;
using readings::Instrument;
using readings::Kind;
using readings::Reading;

[[noreturn]] void refuse(const Reading& reading, const Fact& read, const Fact& accepted) {
  throw base::InputError(Fact{"errors.read", {{"read", read}, {"accepted", accepted}}})
      .at(readings::place_of(reading));
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
    refuse(reading, {"errors.instrument", {{"name", base::Quoted{name}}}},
           {"errors.instrument_of_kind",
            {{"kind", base::Name{readings::instrument_word_of(Kind::level)}}}});
  return *found;
}

/// Above 0 and no longer than any length: a rod reading, a sight.
double demand_length(const Reading& reading, double length_m, base::Id read) {
  if (std::isfinite(length_m) && length_m > 0.0 && length_m <= base::kLongestLength_m)
    return length_m;
  refuse(reading, {read, {{"length", Number{length_m, -1}}}}, {"errors.length_above_0"});
}

std::vector<std::string> points_of(const layout::Plan& plan) {
  std::vector<std::string> points = layout::corner_labels(plan.polygon.sides);
  points.emplace_back(layout::kCenterLabel);
  for (const layout::Pin& pin : plan.pins) points.push_back(pin.name);
  return points;
}

/// A name of another round is another set-up.
struct SetUps {
  std::vector<std::string> rounds;
  std::vector<std::string> names;

  std::size_t index_of(const Reading& reading) {
    for (std::size_t i = 0; i < names.size(); ++i)
      if (names[i] == reading.from && rounds[i] == reading.round) return i;
    names.push_back(reading.from);
    rounds.push_back(reading.round);
    return names.size() - 1;
  }
};

}  // namespace

double rod_sd_m(const Instrument& instrument, double sight_m) {
  return std::hypot(instrument.constant_m, instrument.per_length * sight_m);
}

Rods rods(const layout::Plan& plan, const std::vector<Reading>& readings,
          const std::vector<Instrument>& instruments, const Wanted& wanted) {
  Rods result;
  result.points = points_of(plan);
  result.corner_count = static_cast<std::size_t>(plan.polygon.sides);
  SetUps set_ups;
  for (std::size_t row = 0; row < readings.size(); ++row) {
    const Reading& reading = readings[row];
    if (reading.kind != Kind::level) continue;
    if (result.readings.size() == kMostRodReadings)
      refuse(reading, {"errors.one_rod_more"},
             {"errors.rods_up_to", {{"count", base::Count{kMostRodReadings}}}});
    const Instrument& instrument = instrument_of(reading, instruments);
    RodReading rod;
    rod.set_up = set_ups.index_of(reading);
    rod.point = index_in(result.points, reading.to);
    rod.row = row;
    rod.instrument = instrument.name;
    rod.read_m = demand_length(reading, reading.value_m, "errors.rod_reading_of");
    rod.sd_m = rod_sd_m(
        instrument, demand_length(reading, reading.sight_m.value_or(plan.polygon.corner_radius_m),
                                  "errors.sight_of"));
    rod.written = reading.written;
    if (!(std::isfinite(rod.sd_m) && rod.sd_m > 0.0))
      refuse(reading, {"errors.sd_of_length", {{"sd", Number{rod.sd_m, -1}}}},
             {"errors.sd_above_0"});
    result.readings.push_back(rod);
  }
  result.set_ups = std::move(set_ups.names);
  if (!wanted.bench_mark.empty()) result.bench_mark = index_in(result.points, wanted.bench_mark);
  return result;
}

}  // namespace stakewright::levels
