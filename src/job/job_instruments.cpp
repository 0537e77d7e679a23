#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "job_parts.hpp"
#include "stakewright/base/angle.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::job {
namespace {

using base::Quantity;
using readings::Instrument;
using readings::Kind;

const Keys kInstrumentKeys = {
    "name",    "kind",   "constant",  "per_length",           "centering",     "scale",   "zero",
    "nominal", "actual", "expansion", "standard_temperature", "standard_pull", "section", "modulus",
    "weight",  "angle"};

constexpr Range kError = {0.0, 1.0, true, true, "a length from 0 to 1 m"};
constexpr Range kShare = {0.0, 0.1, true, true, "a number from 0 to 0.1"};
constexpr Range kExpansion = {-1e-3, 1e-3, true, true,
                              "an expansion from -0.001 to 0.001 per degree C"};
constexpr Range kSection = {0.0, 1e-3, false, true, "a cross-section above 0, up to 1000 mm2"};
constexpr Range kModulus = {0.0, 1e12, false, true, "a modulus above 0, up to 1000 GPa"};
constexpr Range kWeight = {0.0, 100.0, false, true, "a weight above 0, up to 100 N/m"};

// Marked and measured length further apart than this are not one tape's.
constexpr double kMostOff = 0.1;

// A standard deviation under a hundredth of a millimeter is a slip of the pen, and readings
// weighed so would drown all others.
constexpr double kLeastSpread_m = 1e-5;

// The same of an angle: no circle on a building site is better than a tenth of a second, and one
// worse than a degree is none.
constexpr double kLeastAngleSpread_rad = base::kDegree_rad / 36000.0;
constexpr double kLargestAngleSpread_rad = base::kDegree_rad;

Kind read_kind(const Value& value) {
  return word_from<Kind>(value, {{"tape", Kind::tape},
                                 {"laser", Kind::laser},
                                 {"level", Kind::level},
                                 {"circle", Kind::angle}});
}

// The figures an instrument starts from: the built-in one's of that name, else the error figures
// of the built-in one of that kind.
Instrument start_of(const std::string& name, Kind kind) {
  Instrument usual;
  for (const Instrument& known : readings::built_in_instruments()) {
    if (known.name == name) return known;
    if (known.name == readings::default_instrument(kind)) usual = known;
  }
  usual.name = name;
  usual.expansion_per_c.reset();
  usual.standard_pull_n.reset();
  return usual;
}

// Figures that come to nothing make weights without bound.
void demand_spread(const Section& table, const Instrument& into) {
  if (into.kind == Kind::angle) {
    if (into.angle_rad < kLeastAngleSpread_rad)
      throw base::InputError(
          fmt::format("{}: read an angle that comes to nothing; accepted: "
                      "at least a tenth of a second",
                      table.place()));
    return;
  }
  if (std::hypot(into.constant_m, std::sqrt(2.0) * into.centering_m) < kLeastSpread_m)
    throw base::InputError(
        fmt::format("{}: read a constant and a centering that come to nothing; accepted: together "
                    "at least 0.01 mm",
                    table.place()));
}

double angle_error_from(const Value& value) {
  const double read_rad =
      base::angle_rad_from_text(text_or_number(value, "an angle such as \"0-00-20\""));
  if (read_rad > kLargestAngleSpread_rad)
    throw base::InputError(
        fmt::format("read {}; accepted: an angle up to a degree", words_of(value)));
  return read_rad;
}

// A circle has no length to be off by, and nothing else has a circle.
void demand_own_keys(const Section& table, Kind kind) {
  const auto refuse = [&](const char* key, const char* accepted) {
    if (const Entry* entry = table.find(key))
      table.refuse(*entry, fmt::format("read {} of a {}; accepted: {}", key,
                                       readings::instrument_word_of(kind), accepted));
  };
  if (kind != Kind::angle) return refuse("angle", "angle for an instrument of kind circle");
  for (const char* key :
       {"constant", "per_length", "scale", "zero", "nominal", "actual", "expansion",
        "standard_temperature", "standard_pull", "section", "modulus", "weight"})
    refuse(key, "angle and centering for a circle");
}

void read_errors(const Section& table, base::Units units, Instrument& into) {
  const auto length = [units](const Value& v) { return length_in(v, units, kError); };
  const auto share = [](const Value& v) { return number_in(v, kShare); };
  table.read("constant", into.constant_m, length);
  table.read("per_length", into.per_length, share);
  table.read("centering", into.centering_m, length);
  table.read("scale", into.scale, share);
  table.read("zero", into.zero_m, length);
  table.read("angle", into.angle_rad, [](const Value& v) { return angle_error_from(v); });
  demand_own_keys(table, into.kind);
  demand_spread(table, into);
}

void read_corrections(const Section& table, base::Units units, Instrument& into) {
  const auto quantity = [](Quantity of, const Range& range) {
    return [of, &range](const Value& value) { return quantity_in(value, of, range); };
  };
  const auto length = [units](const Value& v) { return length_in(v, units, kLengthAboveZero); };
  table.read("nominal", into.nominal_m, length);
  table.read("actual", into.actual_m, length);
  table.read("expansion", into.expansion_per_c, quantity(Quantity::expansion, kExpansion));
  table.read("standard_temperature", into.standard_temperature_c,
             quantity(Quantity::temperature, kTemperature));
  table.read("standard_pull", into.standard_pull_n, quantity(Quantity::pull, kPull));
  table.read("section", into.section_m2, quantity(Quantity::section, kSection));
  table.read("modulus", into.modulus_pa, quantity(Quantity::modulus, kModulus));
  table.read("weight", into.weight_n_per_m, quantity(Quantity::weight, kWeight));
}

// A correction needs all of its figures; half of them is a slip of the pen.
void demand_together(const Section& table, std::initializer_list<std::string_view> keys) {
  for (const std::string_view there : keys)
    for (const std::string_view missing : keys)
      if (table.find(there) != nullptr && table.find(missing) == nullptr)
        throw base::InputError(fmt::format("{}: read {} without {}; accepted: both or neither",
                                           table.place(), there, missing));
}

void demand_whole_corrections(const Section& table, const Instrument& instrument) {
  demand_together(table, {"nominal", "actual"});
  demand_together(table, {"section", "modulus"});
  for (const char* key : {"section", "weight"})
    if (table.find(key) != nullptr && !instrument.standard_pull_n)
      throw base::InputError(
          fmt::format("{}: read {} without standard_pull; accepted: both", table.place(), key));
  if (instrument.nominal_m &&
      std::abs(*instrument.actual_m / *instrument.nominal_m - 1.0) > kMostOff)
    throw base::InputError(
        fmt::format("{}: read nominal and actual more than a tenth apart; accepted: the marked "
                    "length of the tape and what it measures",
                    table.place()));
}

// A rod is not held over a stake, and an error that is the same in every rod drops out.
void demand_keys_of_a_level(const Section& table, Kind kind) {
  if (kind != Kind::level) return;
  for (const Entry& entry : table.entries())
    if (entry.key != "name" && entry.key != "kind" && entry.key != "constant" &&
        entry.key != "per_length")
      table.refuse(
          entry, fmt::format("read {} for a level; accepted: constant and per_length", entry.key));
}

Instrument read_instrument(const Section& table, base::Units units) {
  const std::string name = table.read(table.demand("name", "a name in quotes"), name_from);
  const Entry& kind_entry = table.demand("kind", "\"tape\", \"laser\", \"level\" or \"circle\"");
  const Kind kind = table.read(kind_entry, read_kind);
  Instrument result = start_of(name, kind);
  if (result.kind != kind)
    table.refuse(kind_entry, fmt::format("{} is built in as another kind; accepted: its own kind, "
                                         "or another name",
                                         base::in_quotes(name)));
  demand_keys_of_a_level(table, kind);
  read_errors(table, units, result);
  read_corrections(table, units, result);
  demand_whole_corrections(table, result);
  return result;
}

}  // namespace

std::vector<Instrument> read_instruments(const Section& top, base::Units units) {
  std::vector<Instrument> all = readings::built_in_instruments();
  std::vector<std::string> stated;
  for (const Section& table : top.tables("instrument", kInstrumentKeys)) {
    Instrument instrument = read_instrument(table, units);
    if (std::find(stated.begin(), stated.end(), instrument.name) != stated.end())
      table.refuse(*table.find("name"),
                   fmt::format("read {} a second time; accepted: each name once",
                               base::in_quotes(instrument.name)));
    stated.push_back(instrument.name);
    const auto same = std::find_if(all.begin(), all.end(), [&](const Instrument& known) {
      return known.name == instrument.name;
    });
    if (same == all.end()) {
      all.push_back(std::move(instrument));
    } else {
      *same = std::move(instrument);
    }
  }
  return all;
}

}  // namespace stakewright::job
