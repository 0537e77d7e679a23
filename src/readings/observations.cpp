#include "stakewright/readings/observation.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "stakewright/base/error.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/base/turning.hpp"

namespace stakewright::readings {
namespace {

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
  if (found == points.end()) refuse(reading, Quoted{label}, listed(labels));
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

Observation length(const Reading& reading, const Instrument& instrument, Observation ends) {
  demand_value(reading);
  ends.read = ends.corrected = reading.value_m;
  ends.written = reading.written;
  ends.corrections = corrections(reading, instrument);
  for (const Correction& correction : ends.corrections) ends.corrected += correction.amount_m;
  ends.sd = standard_deviation_m(instrument, ends.corrected);
  demand_spread(reading, ends.sd);
  return ends;
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
  if (std::min(planned.from_m, planned.to_m) < kSamePlace_m)
    refuse(reading, Fact{"errors.sight_of_no_length"}, Fact{"errors.points_apart"});
  ends.read = ends.corrected = reading.angle_rad;
  ends.sd = standard_deviation_rad(circle, planned);
  demand_spread(reading, ends.sd);
  return ends;
}

Expected expected_length(const Observation& length, std::span<const base::Point> places,
                         double scale, double zero_m) {
  const base::Point from = places[length.from];
  const base::Point to = places[length.to];
  Expected result;
  result.by_scale = base::distance_m(from, to);
  result.by_zero = 1.0;
  result.value = (1.0 + scale) * result.by_scale + zero_m;
  result.defined = result.by_scale > kSamePlace_m;
  const base::Point by_to =
      result.defined ? ((1.0 + scale) / result.by_scale) * (to - from) : base::Point{};
  result.answer = {Answer{length.from, -1.0 * by_to}, {length.to, by_to}, {}};
  result.answer_count = 2;
  return result;
}

Expected expected_angle(const Observation& angle, std::span<const base::Point> places) {
  const base::Point at = places[*angle.at];
  const base::Point back = places[angle.from] - at;
  const base::Point ahead = places[angle.to] - at;
  Expected result;
  result.value = base::turned_rad(at, places[angle.from], places[angle.to]);
  result.defined = base::norm_m(back) > kSamePlace_m && base::norm_m(ahead) > kSamePlace_m;
  const base::Point by_from = result.defined ? -1.0 * base::bearing_by_place(back) : base::Point{};
  const base::Point by_to = result.defined ? base::bearing_by_place(ahead) : base::Point{};
  result.answer = {
      Answer{angle.from, by_from}, {angle.to, by_to}, {*angle.at, -1.0 * (by_from + by_to)}};
  result.answer_count = 3;
  return result;
}

}  // namespace

std::vector<std::size_t> Observation::points() const {
  std::vector<std::size_t> points = {from, to};
  if (at) points.push_back(*at);
  return points;
}

double Observation::difference(double value, double other) const {
  return is_angle() ? base::wrapped_rad(value - other) : value - other;
}

base::Value Observation::figure(double value, base::AngleStyle style) const {
  if (is_angle()) return base::Angle{value, style};
  return base::Length{value};
}

base::Fact Observation::off_by(double size) const {
  const bool more = size > 0.0;
  if (is_angle())
    return {more ? base::Id("sizes.too_large") : base::Id("sizes.too_small"),
            {{"size", base::Angle{std::abs(size), base::AngleStyle::words}}}};
  return {more ? base::Id("sizes.too_long") : base::Id("sizes.too_short"),
          {{"size", base::Length{std::abs(size)}}}};
}

Expected expected(const Observation& observation, std::span<const base::Point> places, double scale,
                  double zero_m) {
  return observation.is_angle() ? expected_angle(observation, places)
                                : expected_length(observation, places, scale, zero_m);
}

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
  for (std::size_t row = 0; row < readings.size(); ++row) {
    const Reading& reading = readings[row];
    if (reading.kind == Kind::level) continue;
    Observation ends;
    ends.row = row;
    ends.from = point_index(reading, reading.from, by_label, points);
    ends.to = point_index(reading, reading.to, by_label, points);
    if (ends.from == ends.to)
      refuse(reading, Fact{"errors.same_point_twice"}, Fact{"errors.two_points"});
    ends.instrument = instrument_index(reading, by_name, instruments);
    const Instrument& instrument = instruments[ends.instrument];
    if (reading.kind == Kind::angle) ends.at = point_index(reading, reading.at, by_label, points);
    result.push_back(ends.at ? angle(reading, instrument, ends, places)
                             : length(reading, instrument, ends));
  }
  return result;
}

}  // namespace stakewright::readings
