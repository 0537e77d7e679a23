#include "words.hpp"

#include <fmt/format.h>

#include <cmath>

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

std::string tape_name(const std::string& from, const std::string& to) { return from + "–" + to; }

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

}  // namespace stakewright::cli
