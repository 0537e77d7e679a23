#include "stakewright/readings/corrections.hpp"

#include <cmath>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::readings {
namespace {

using base::Fact;

Fact name_of(Cause cause) {
  switch (cause) {
    case Cause::burned:
      return {"corrections.burned"};
    case Cause::standardization:
      return {"corrections.standardization"};
    case Cause::temperature:
      return {"corrections.temperature"};
    case Cause::pull:
      return {"corrections.pull"};
    case Cause::sag:
      return {"corrections.sag"};
    case Cause::slope:
      break;
  }
  return {"corrections.slope"};
}

// The length as it stands, and what has been added to it so far.
class Corrected {
 public:
  explicit Corrected(const Reading& reading) : reading_(reading), length_m_(reading.value_m) {}

  [[nodiscard]] double length_m() const { return length_m_; }

  void add(Cause cause, double amount_m) {
    length_m_ += amount_m;
    if (!(std::isfinite(length_m_) && length_m_ > 0.0))
      throw base::InputError(Fact{"errors.no_length_left", {{"correction", name_of(cause)}}})
          .at(place_of(reading_));
    made_.push_back({cause, amount_m});
  }

  std::vector<Correction> made() && { return std::move(made_); }

 private:
  const Reading& reading_;
  double length_m_;
  std::vector<Correction> made_;
};

bool has_pull_figures(const Reading& reading, const Instrument& instrument) {
  return reading.pull_n && instrument.standard_pull_n && instrument.section_m2 &&
         instrument.modulus_pa;
}

void add_sag(Corrected& length, const Reading& reading, const Instrument& instrument) {
  if (!instrument.weight_n_per_m || reading.spans == 0) return;
  const auto pull_n = reading.pull_n ? reading.pull_n : instrument.standard_pull_n;
  if (!pull_n) return;
  const double span_m = length.length_m() / reading.spans;
  length.add(Cause::sag,
             reading.spans * sag_correction_m(span_m, *instrument.weight_n_per_m, *pull_n));
}

}  // namespace

double standardization_correction_m(double length_m, double nominal_m, double actual_m) {
  return length_m * (actual_m - nominal_m) / nominal_m;
}

double temperature_correction_m(double length_m, double expansion_per_c, double temperature_c,
                                double standard_temperature_c) {
  return expansion_per_c * (temperature_c - standard_temperature_c) * length_m;
}

double pull_correction_m(double length_m, double pull_n, double standard_pull_n, double section_m2,
                         double modulus_pa) {
  return (pull_n - standard_pull_n) * length_m / (section_m2 * modulus_pa);
}

double sag_correction_m(double span_m, double weight_n_per_m, double pull_n) {
  const double weight_to_pull = weight_n_per_m * span_m / pull_n;
  return -weight_to_pull * weight_to_pull * span_m / 24.0;
}

double slope_correction_m(double length_m, double rise_m) {
  // sqrt(s² − v²) − s, written so that a small rise loses no digits.
  const double level_m = std::sqrt((length_m - rise_m) * (length_m + rise_m));
  return -rise_m * rise_m / (length_m + level_m);
}

std::vector<Correction> corrections(const Reading& reading, const Instrument& instrument) {
  Corrected length(reading);
  if (reading.burned_m) length.add(Cause::burned, -*reading.burned_m);
  if (instrument.nominal_m && instrument.actual_m)
    length.add(Cause::standardization,
               standardization_correction_m(length.length_m(), *instrument.nominal_m,
                                            *instrument.actual_m));
  if (reading.temperature_c && instrument.expansion_per_c)
    length.add(Cause::temperature,
               temperature_correction_m(length.length_m(), *instrument.expansion_per_c,
                                        *reading.temperature_c, instrument.standard_temperature_c));
  if (has_pull_figures(reading, instrument))
    length.add(Cause::pull,
               pull_correction_m(length.length_m(), *reading.pull_n, *instrument.standard_pull_n,
                                 *instrument.section_m2, *instrument.modulus_pa));
  add_sag(length, reading, instrument);
  if (reading.slope_m)
    length.add(Cause::slope, slope_correction_m(length.length_m(), *reading.slope_m));
  return std::move(length).made();
}

base::Fact place_of(const Reading& reading) {
  const auto shown = [](const std::string& label) -> base::Value {
    if (base::is_printable(label) && label.size() <= base::kLongestQuote) return base::Name{label};
    return base::Quoted{label};
  };
  Fact place{reading.kind == Kind::angle ? base::Id("errors.angle") : base::Id("errors.reading"),
             {{"at", shown(reading.at)}, {"from", shown(reading.from)}, {"to", shown(reading.to)}}};
  if (reading.line == 0) return place;
  return {"errors.in_line",
          {{"what", place}, {"line", base::Count{static_cast<std::size_t>(reading.line)}}}};
}

}  // namespace stakewright::readings
