#include <algorithm>
#include <cmath>
#include <numbers>

#include "stakewright/readings/classes.hpp"
#include "stakewright/readings/reading.hpp"

namespace stakewright::readings {
namespace {

// A tape held over a nail in a stake by hand stands within 2 mm (5/64 in) of it: common practice,
// no source.
constexpr double kCenteringLimit_m = 0.002;

// The coarsest step crews read to in either system: 1/16 in.
constexpr double kReadingStep_m = 0.0254 / 16.0;

// What the class limits are stated for; the pull for tapes of 5 m and longer.
// Directive 2014/32/EU, Annex X (MI-008), chapter I, paragraph 1.
constexpr double kReferenceTemperature_c = 20.0;
constexpr double kReferencePull_n = 50.0;

// Steel, JCGM 100:2008 (GUM), H.1.2.
constexpr double kSteelExpansion_per_c = 11.5e-6;

// Nothing published says how much of a class limit is the instrument's own, the same at every
// reading, and how much comes and goes: half the variance is given to each.
double half_the_variance(double sd) { return sd / std::sqrt(2.0); }

Instrument tape(const char* name, TapeClass of_class) {
  const double first_meter_m = tape_limit_m(of_class, 1.0);
  const double growth = tape_limit_m(of_class, 2.0) - first_meter_m;
  const double from_end_m = tape_limit_m(of_class, 1.0, TapeStart::end) - first_meter_m;
  Instrument result;
  result.name = name;
  result.kind = Kind::tape;
  result.constant_m = std::hypot(sd_from_limit(first_meter_m), sd_from_step(kReadingStep_m));
  result.per_length = half_the_variance(sd_from_limit(growth));
  result.centering_m = sd_from_limit(kCenteringLimit_m);
  result.scale = half_the_variance(sd_from_limit(growth));
  result.zero_m = sd_from_limit(from_end_m);
  result.standard_temperature_c = kReferenceTemperature_c;
  result.standard_pull_n = kReferencePull_n;
  return result;
}

Instrument steel(const char* name, TapeClass of_class) {
  Instrument result = tape(name, of_class);
  result.expansion_per_c = kSteelExpansion_per_c;
  return result;
}

// Makers give a laser twice the error in bright sun or on a poor target: from memory, no source.
constexpr double kWorseInSun = 2.0;

// A maker's law is two sigma, flat to 10 m.  constant² + (growth · d)² equals it at nothing and at
// 30 m; between it is from 1 in 100 under to 7 in 100 over.
Instrument laser(const char* name, double worse) {
  constexpr double near_m = 10.0;
  constexpr double far_m = 30.0;
  const double constant_m = worse * laser_limit_m(near_m) / 2.0;
  const double far_sd_m = worse * laser_limit_m(far_m) / 2.0;
  const double growth = std::sqrt(far_sd_m * far_sd_m - constant_m * constant_m) / far_m;
  Instrument result;
  result.name = name;
  result.kind = Kind::laser;
  result.constant_m = half_the_variance(constant_m);
  result.per_length = half_the_variance(growth);
  result.centering_m = sd_from_limit(kCenteringLimit_m);
  result.scale = half_the_variance(growth);
  result.zero_m = half_the_variance(constant_m);
  return result;
}

// A rod is read to the crew's own step, 1/16 in, and stands within a millimeter of upright and of
// its mark: common practice, no source.
constexpr double kRodLimit_m = 0.001;

// What a line of sight may be off level, as makers state it for instruments of this class, two
// sigma: 6 mm in 30 m, and 3 mm in 30 m with a rotating laser.  Our choice, no source.
constexpr double kSightLimit = 0.006 / 30.0;
constexpr double kBeamLimit = 0.003 / 30.0;

// A detector finds the beam within a millimeter: common practice, no source.
constexpr double kDetectorLimit_m = 0.001;

Instrument level() {
  Instrument result;
  result.name = "level";
  result.kind = Kind::level;
  result.constant_m = std::hypot(sd_from_step(kReadingStep_m), sd_from_limit(kRodLimit_m));
  result.per_length = kSightLimit / 2.0;
  return result;
}

Instrument rotating_laser() {
  Instrument result = level();
  result.name = "rotating laser";
  result.constant_m = std::hypot(result.constant_m, sd_from_limit(kDetectorLimit_m));
  result.per_length = kBeamLimit / 2.0;
  return result;
}

constexpr double kMinute_rad = std::numbers::pi / 180.0 / 60.0;

// An angle is the difference of two pointings.
Instrument circle_of(const char* name, double pointing_rad) {
  Instrument result;
  result.name = name;
  result.kind = Kind::angle;
  result.angle_rad = std::sqrt(2.0) * pointing_rad;
  result.centering_m = sd_from_limit(kCenteringLimit_m);
  return result;
}

// Verniers read to the nearest minute, and to five: common practice, no source.
Instrument circle() { return circle_of("circle", sd_from_step(kMinute_rad)); }

Instrument transit() { return circle_of("transit", sd_from_step(5.0 * kMinute_rad)); }

// Makers state the standard deviation of a direction taken in both faces (ISO 17123-3, from
// memory).  A crew turns an angle in one: twice the variance.  Five seconds is our choice.
Instrument total_station() {
  return circle_of("total station", std::sqrt(2.0) * kMinute_rad / 12.0);
}

}  // namespace

const char* word_of(Kind kind) {
  switch (kind) {
    case Kind::tape:
      return "tape";
    case Kind::laser:
      return "laser";
    case Kind::level:
      return "level";
    case Kind::angle:
      break;
  }
  return "angle";
}

const char* instrument_word_of(Kind kind) { return kind == Kind::angle ? "circle" : word_of(kind); }

std::vector<Instrument> built_in_instruments() {
  return {steel("steel", TapeClass::II),
          tape("fibreglass", TapeClass::III),
          laser("laser", 1.0),
          level(),
          rotating_laser(),
          circle(),
          transit(),
          total_station(),
          steel("steel I", TapeClass::I),
          steel("steel II", TapeClass::II),
          steel("steel III", TapeClass::III),
          tape("fibreglass I", TapeClass::I),
          tape("fibreglass II", TapeClass::II),
          tape("fibreglass III", TapeClass::III),
          laser("laser in sun", kWorseInSun)};
}

const Instrument* instrument_named(const std::vector<Instrument>& instruments,
                                   std::string_view name) {
  const auto found =
      std::find_if(instruments.rbegin(), instruments.rend(),
                   [&](const Instrument& instrument) { return instrument.name == name; });
  return found == instruments.rend() ? nullptr : &*found;
}

std::string default_instrument(Kind kind) {
  return kind == Kind::tape ? "steel" : instrument_word_of(kind);
}

}  // namespace stakewright::readings
