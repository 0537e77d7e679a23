#include "stakewright/readings/observation.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "stakewright/base/error.hpp"
#include "stakewright/base/length.hpp"

namespace stakewright::readings {
namespace {

/// Two points planned nearer than this have no direction between them: a hundredth of the finest
/// mark on any tape.
constexpr double kShortestSight_m = 1e-5;

using base::Fact;
using base::Name;
using base::Number;
using base::Quoted;
using Indices = std::map<std::string, std::size_t, std::less<>>;

// Several of one name: the last one counts, as a job's own instrument stands in for a built-in one.
Indices indices(const std::vector<std::string>& names) {
  Indices result;
  for (std::size_t k = 0; k < names.size(); ++k) result.insert_or_assign(names[k], k);
  return result;
}

std::vector<std::string> names_of(const std::vector<Instrument>& instruments) {
  std::vector<std::string> names;
  names.reserve(instruments.size());
  for (const Instrument& instrument : instruments) names.push_back(instrument.name);
  return names;
}

[[noreturn]] void refuse(const Reading& reading, base::Value read, base::Value accepted) {
  throw base::InputError(
      Fact{"errors.read", {{"read", std::move(read)}, {"accepted", std::move(accepted)}}})
      .at(place_of(reading));
}

base::List listed(const std::vector<std::string>& texts) {
  return base::names(texts, base::List::Joint::listed);
}

std::size_t point_index(const Reading& reading, const std::string& label, const Indices& points,
                        const std::vector<std::string>& labels) {
  const auto found = points.find(label);
  if (found == points.end())
    refuse(reading, Quoted{label}, listed(labels));
  return found->second;
}

std::size_t instrument_index(const Reading& reading, const Indices& by_name,
                             const std::vector<Instrument>& instruments) {
  const std::string name =
      reading.instrument.empty() ? default_instrument(reading.kind) : reading.instrument;
  const auto found = by_name.find(name);
  if (found == by_name.end())
    refuse(reading, Fact{"errors.instrument", {{"name", Quoted{name}}}},
           listed(names_of(instruments)));
  const Kind kind = instruments[found->second].kind;
  if (kind != reading.kind)
    refuse(reading,
           Fact{"errors.instrument_of",
                {{"name", Quoted{name}}, {"kind", Name{instrument_word_of(kind)}}}},
           Fact{"errors.instrument_of_kind", {{"kind", Name{instrument_word_of(reading.kind)}}}});
  return found->second;
}

void demand_value(const Reading& reading) {
  const double value_m = reading.value_m;
  if (std::isfinite(value_m) && value_m > 0.0 && value_m <= base::kLongestLength_m) return;
  refuse(reading, Fact{"errors.meters", {{"length", Number{value_m, -1}}}},
         Fact{"errors.length_up_to", {{"longest", Number{base::kLongestLength_m, 0}}}});
}

void demand_angle(const Reading& reading) {
  const double angle_rad = reading.angle_rad;
  if (std::isfinite(angle_rad) && angle_rad > 0.0 && angle_rad < 2.0 * std::numbers::pi) return;
  refuse(reading, Fact{"errors.radians", {{"angle", Number{angle_rad, -1}}}},
         Fact{"errors.angle_below_turn"});
}

void demand_spread(const Reading& reading, double sd) {
  if (std::isfinite(sd) && sd > 0.0) return;
  refuse(reading,
         Fact{reading.kind == Kind::angle ? base::Id("errors.sd_of_angle")
                                         : base::Id("errors.sd_of_length"),
              {{"sd", Number{sd, -1}}}},
         Fact{"errors.sd_above_0"});
}

Observation length(const Reading& reading, const Instrument& instrument) {
  demand_value(reading);
  Observation result;
  result.read = reading.value_m;
  result.corrected = reading.value_m;
  result.written = reading.written;
  for (const Correction& correction : corrections(reading, instrument))
    result.corrected += correction.amount_m;
  result.sd = standard_deviation_m(instrument, result.corrected);
  demand_spread(reading, result.sd);
  return result;
}

Sights sights(const std::vector<base::Point>& places, const Observation& angle) {
  const base::Point at = places.at(*angle.at);
  return {base::distance_m(at, places.at(angle.from)), base::distance_m(at, places.at(angle.to)),
          base::distance_m(places.at(angle.from), places.at(angle.to))};
}

Observation angle(const Reading& reading, const Instrument& circle, Observation ends,
                  const std::vector<base::Point>& places) {
  demand_angle(reading);
  if (*ends.at == ends.from || *ends.at == ends.to)
    refuse(reading, Fact{"errors.angle_turned_at", {{"at", Quoted{reading.at}}}},
           Fact{"errors.point_beside_ends"});
  const Sights planned = sights(places, ends);
  if (std::min(planned.from_m, planned.to_m) < kShortestSight_m)
    refuse(reading, Fact{"errors.sight_of_no_length"}, Fact{"errors.points_apart"});
  ends.read = ends.corrected = reading.angle_rad;
  ends.sd = standard_deviation_rad(circle, planned);
  demand_spread(reading, ends.sd);
  return ends;
}

}  // namespace

double standard_deviation_rad(const Instrument& circle, const Sights& sights) {
  const double by_from = 1.0 / sights.from_m;
  const double by_to = 1.0 / sights.to_m;
  const double by_at = sights.apart_m * by_from * by_to;
  return std::hypot(circle.angle_rad, circle.centering_m * std::hypot(by_from, by_to, by_at));
}

double standard_deviation_m(const Instrument& instrument, double length_m) {
  const double growing_m = instrument.per_length * length_m;
  return std::sqrt(instrument.constant_m * instrument.constant_m + growing_m * growing_m +
                   2.0 * instrument.centering_m * instrument.centering_m);
}

std::vector<Observation> observations(const std::vector<Reading>& readings,
                                      const std::vector<Instrument>& instruments,
                                      const std::vector<std::string>& points,
                                      const std::vector<base::Point>& places) {
  const Indices by_label = indices(points);
  const Indices by_name = indices(names_of(instruments));
  std::vector<Observation> result;
  result.reserve(readings.size());
  for (const Reading& reading : readings) {
    Observation ends;
    ends.from = point_index(reading, reading.from, by_label, points);
    ends.to = point_index(reading, reading.to, by_label, points);
    if (ends.from == ends.to) refuse(reading, Fact{"errors.same_point_twice"}, Fact{"errors.two_points"});
    ends.instrument = instrument_index(reading, by_name, instruments);
    const Instrument& instrument = instruments[ends.instrument];
    if (reading.kind == Kind::angle) {
      ends.at = point_index(reading, reading.at, by_label, points);
      result.push_back(angle(reading, instrument, ends, places));
      continue;
    }
    result.push_back(length(reading, instrument));
    result.back().from = ends.from;
    result.back().to = ends.to;
    result.back().instrument = ends.instrument;
  }
  return result;
}

}  // namespace stakewright::readings
