#include "stakewright/readings/rounds.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::readings {
namespace {

using Names = std::vector<std::string>;

bool has(const Names& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

std::string listed(const Names& rounds) {
  Names quoted;
  for (const std::string& round : rounds) quoted.push_back(base::in_quotes(round));
  return fmt::format("{}", fmt::join(quoted, ", "));
}

}  // namespace

Names rounds_of(const std::vector<Reading>& readings) {
  Names rounds;
  for (const Reading& reading : readings) {
    if (!has(rounds, reading.round)) rounds.push_back(reading.round);
  }
  return rounds;
}

std::vector<Reading> of_round(const std::vector<Reading>& readings, const std::string& round) {
  std::vector<Reading> result;
  std::copy_if(readings.begin(), readings.end(), std::back_inserter(result),
               [&](const Reading& reading) { return reading.round == round; });
  return result;
}

std::string chosen_round(const Names& rounds, const std::string& asked) {
  if (asked.empty()) return rounds.empty() ? "" : rounds.back();
  if (has(rounds, asked)) return asked;
  throw base::InputError(
      rounds.empty()
          ? fmt::format("read {}; there are no readings", base::in_quotes(asked))
          : fmt::format("read {}; accepted: {}", base::in_quotes(asked), listed(rounds)));
}

std::string earlier_round(const Names& rounds, const std::string& asked, const std::string& later) {
  const Names earlier(rounds.begin(), std::find(rounds.begin(), rounds.end(), later));
  if (has(earlier, asked)) return asked;
  if (earlier.empty())
    throw base::InputError(fmt::format("read {}; accepted: a round before {}, and there is none",
                                       base::in_quotes(asked), base::in_quotes(later)));
  throw base::InputError(fmt::format("read {}; accepted: a round before {}: {}",
                                     base::in_quotes(asked), base::in_quotes(later),
                                     listed(earlier)));
}

}  // namespace stakewright::readings
