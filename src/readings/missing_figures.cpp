#include "stakewright/readings/missing_figures.hpp"

#include <optional>
#include <set>

namespace stakewright::readings {
namespace {

using base::Fact;
using base::Name;

/// A laser, a level, a circle.
Fact one_of_kind(Kind kind) {
  if (kind == Kind::laser) return {"kinds.laser"};
  if (kind == Kind::level) return {"kinds.level"};
  return {"kinds.circle"};
}

std::optional<Fact> without_temperature(const Instrument& instrument) {
  const Name name{instrument.name};
  if (instrument.expansion_per_c) return std::nullopt;
  if (instrument.kind != Kind::tape)
    return Fact{"corrections.no_temperature",
                {{"instrument", name}, {"kind", one_of_kind(instrument.kind)}}};
  return Fact{"corrections.no_expansion", {{"instrument", name}}};
}

std::optional<Fact> without_pull(const Instrument& instrument) {
  const Name name{instrument.name};
  if (instrument.standard_pull_n && instrument.section_m2 && instrument.modulus_pa)
    return std::nullopt;
  if (instrument.kind != Kind::tape)
    return Fact{"corrections.no_pull",
                {{"instrument", name}, {"kind", one_of_kind(instrument.kind)}}};
  if (instrument.weight_n_per_m) return Fact{"corrections.pull_for_sag", {{"instrument", name}}};
  return Fact{"corrections.no_stretch", {{"instrument", name}}};
}

}  // namespace

std::vector<Fact> missing_figures(const std::vector<Reading>& readings,
                                  const std::vector<Instrument>& instruments) {
  std::vector<Fact> remarks;
  std::set<const Instrument*> warm;
  std::set<const Instrument*> pulled;
  const auto add = [&](std::optional<Fact> remark) {
    if (remark) remarks.push_back(std::move(*remark));
  };
  for (const Reading& reading : readings) {
    const Instrument* instrument =
        instrument_named(instruments, reading.instrument.empty() ? default_instrument(reading.kind)
                                                                 : reading.instrument);
    if (instrument == nullptr) continue;
    if (reading.temperature_c && warm.insert(instrument).second)
      add(without_temperature(*instrument));
    if (reading.pull_n && pulled.insert(instrument).second) add(without_pull(*instrument));
  }
  return remarks;
}

}  // namespace stakewright::readings
