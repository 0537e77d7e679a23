#include "words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "stakewright/base/angle.hpp"

namespace stakewright::cli {
namespace {

std::string text_of(double length_m, base::Units units, Step step) {
  return step == Step::tape ? base::text_from_length(length_m, units)
                            : base::text_from_small_length(length_m, units);
}

}  // namespace

std::string directed(double length_m, Directions directions, base::Units units, Step step) {
  const std::string text = text_of(std::abs(length_m), units, step);
  if (!std::isfinite(length_m) || text == text_of(0.0, units, step)) return text;
  return text + ' ' + (length_m > 0 ? directions.positive : directions.negative);
}

std::string off_words(double outward_m, double sideways_m, base::Units units) {
  const std::string nothing = text_of(0.0, units, Step::tape);
  const std::string outward = directed(outward_m, kOutward, units, Step::tape);
  const std::string sideways = directed(sideways_m, kSideways, units, Step::tape);
  if (outward == nothing && sideways == nothing) return "in place";
  if (outward == nothing) return sideways;
  if (sideways == nothing) return outward;
  return outward + " and " + sideways;
}

std::string percent(double chance) {
  if (chance > 0.99) return "over 99 %";
  if (chance < 0.01) return "under 1 %";
  return fmt::format("{:.0f} %", 100.0 * chance);
}

std::string directed_angle(double angle_rad, Directions directions) {
  const std::string text = base::dms_from_angle(std::abs(angle_rad));
  if (!std::isfinite(angle_rad) || text == base::dms_from_angle(0.0)) return text;
  return text + ' ' + (angle_rad > 0 ? directions.positive : directions.negative);
}

std::string reading_name(const adjustment::Network& network, std::size_t reading) {
  const readings::Observation& seen = network.observations[reading];
  const auto label = [&](std::size_t point) { return network.points[point].label; };
  if (!seen.at) return tape_name(label(seen.from), label(seen.to));
  return tape_name(tape_name(label(seen.from), label(*seen.at)), label(seen.to));
}

std::string tape_name(const std::string& from, const std::string& to) { return from + "–" + to; }

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

const char* verdict_word(placement::Verdict verdict) {
  switch (verdict) {
    case placement::Verdict::in:
      return "in";
    case placement::Verdict::out:
      return "OUT";
    case placement::Verdict::undecided:
      return "cannot tell";
  }
  return "";
}

}  // namespace stakewright::cli
