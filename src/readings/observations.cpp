#include "stakewright/readings/observation.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "stakewright/base/error.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::readings {
namespace {

using Places = std::map<std::string, std::size_t, std::less<>>;

// Several of one name: the last one counts, as a job's own instrument stands in for a built-in one.
Places places(const std::vector<std::string>& names) {
  Places result;
  for (std::size_t k = 0; k < names.size(); ++k) result.insert_or_assign(names[k], k);
  return result;
}

std::vector<std::string> names_of(const std::vector<Instrument>& instruments) {
  std::vector<std::string> names;
  names.reserve(instruments.size());
  for (const Instrument& instrument : instruments) names.push_back(instrument.name);
  return names;
}

[[noreturn]] void refuse(const Reading& reading, const std::string& read,
                         const std::string& accepted) {
  throw base::InputError(
      fmt::format("{}: read {}; accepted: {}", name_of(reading), read, accepted));
}

std::size_t point_index(const Reading& reading, const std::string& label, const Places& points,
                        const std::vector<std::string>& labels) {
  const auto found = points.find(label);
  if (found == points.end())
    refuse(reading, base::in_quotes(label), fmt::format("{}", fmt::join(labels, ", ")));
  return found->second;
}

std::size_t instrument_index(const Reading& reading, const Places& by_name,
                             const std::vector<Instrument>& instruments) {
  const std::string name =
      reading.instrument.empty() ? default_instrument(reading.kind) : reading.instrument;
  const auto found = by_name.find(name);
  if (found == by_name.end())
    refuse(reading, "instrument " + base::in_quotes(name),
           fmt::format("{}", fmt::join(names_of(instruments), ", ")));
  const Kind kind = instruments[found->second].kind;
  if (kind != reading.kind)
    refuse(reading,
           fmt::format("instrument {}, a {}", base::in_quotes(name), instrument_word_of(kind)),
           fmt::format("an instrument of kind {}", instrument_word_of(reading.kind)));
  return found->second;
}

void demand_value(const Reading& reading) {
  const double value_m = reading.value_m;
  if (std::isfinite(value_m) && value_m > 0.0 && value_m <= base::kLongestLength_m) return;
  refuse(reading, fmt::format("{} m", value_m),
         fmt::format("a length above 0 and up to {:.0f} m", base::kLongestLength_m));
}

Observation observation(const Reading& reading, const Instrument& instrument) {
  Observation result;
  result.read = reading.value_m;
  result.corrected = reading.value_m;
  for (const Correction& correction : corrections(reading, instrument))
    result.corrected += correction.amount_m;
  result.sd = standard_deviation_m(instrument, result.corrected);
  if (!(std::isfinite(result.sd) && result.sd > 0.0))
    refuse(reading, fmt::format("a standard deviation of {} m", result.sd),
           "an instrument whose standard deviation is above 0");
  return result;
}

}  // namespace

double standard_deviation_m(const Instrument& instrument, double length_m) {
  const double growing_m = instrument.per_length * length_m;
  return std::sqrt(instrument.constant_m * instrument.constant_m + growing_m * growing_m +
                   2.0 * instrument.centring_m * instrument.centring_m);
}

std::vector<Observation> observations(const std::vector<Reading>& readings,
                                      const std::vector<Instrument>& instruments,
                                      const std::vector<std::string>& points) {
  const Places by_label = places(points);
  const Places by_name = places(names_of(instruments));
  std::vector<Observation> result;
  result.reserve(readings.size());
  for (const Reading& reading : readings) {
    const std::size_t from = point_index(reading, reading.from, by_label, points);
    const std::size_t to = point_index(reading, reading.to, by_label, points);
    if (from == to) refuse(reading, "the same point twice", "two different points");
    demand_value(reading);
    const std::size_t instrument = instrument_index(reading, by_name, instruments);
    result.push_back(observation(reading, instruments[instrument]));
    result.back().from = from;
    result.back().to = to;
    result.back().instrument = instrument;
  }
  return result;
}

}  // namespace stakewright::readings
