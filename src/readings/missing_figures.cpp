#include "stakewright/readings/missing_figures.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace stakewright::readings {
namespace {

using Sentences = std::vector<std::string>;

bool stretches_as_known(const Instrument& instrument) {
  return instrument.standard_pull_n && instrument.section_m2 && instrument.modulus_pa;
}

std::string temperature_sentence(const Instrument& instrument) {
  if (instrument.expansion_per_c) return "";
  if (instrument.kind != Kind::tape)
    return fmt::format("A temperature is given for {}: a {} is not corrected for it.",
                       instrument.name, instrument_word_of(instrument.kind));
  return fmt::format(
      "A temperature is given for {}, but not its expansion: no correction is made for it.",
      instrument.name);
}

std::string pull_sentence(const Instrument& instrument) {
  if (stretches_as_known(instrument)) return "";
  if (instrument.kind != Kind::tape)
    return fmt::format("A pull is given for {}: a {} is not pulled.", instrument.name,
                       instrument_word_of(instrument.kind));
  if (instrument.weight_n_per_m)
    return fmt::format(
        "A pull is given for {}, but not its section and modulus: it counts for the sag alone, "
        "not for the stretch.",
        instrument.name);
  return fmt::format(
      "A pull is given for {}, but not its section, modulus and standard pull: no correction is "
      "made for it.",
      instrument.name);
}

void add_once(const std::string& sentence, Sentences& sentences) {
  if (sentence.empty()) return;
  if (std::find(sentences.begin(), sentences.end(), sentence) == sentences.end())
    sentences.push_back(sentence);
}

}  // namespace

Sentences missing_figures(const std::vector<Reading>& readings,
                          const std::vector<Instrument>& instruments) {
  Sentences sentences;
  for (const Reading& reading : readings) {
    const Instrument* instrument =
        instrument_named(instruments, reading.instrument.empty() ? default_instrument(reading.kind)
                                                                 : reading.instrument);
    if (instrument == nullptr) continue;
    if (reading.temperature_c) add_once(temperature_sentence(*instrument), sentences);
    if (reading.pull_n) add_once(pull_sentence(*instrument), sentences);
  }
  return sentences;
}

}  // namespace stakewright::readings
