#include "stakewright/readings/rounds.hpp"

#include <algorithm>

#include "stakewright/base/error.hpp"

namespace stakewright::readings {
namespace {

using base::Fact;
using Names = std::vector<std::string>;

bool has(const Names& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

base::List quoted(const Names& rounds) {
  base::List list;
  list.joint = base::List::Joint::listed;
  for (const std::string& round : rounds) list.items.emplace_back(base::Quoted{round});
  return list;
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
  if (rounds.empty())
    throw base::InputError(Fact{"errors.no_readings", {{"read", base::Quoted{asked}}}});
  throw base::InputError(
      Fact{"errors.read", {{"read", base::Quoted{asked}}, {"accepted", quoted(rounds)}}});
}

std::string earlier_round(const Names& rounds, const std::string& asked, const std::string& later) {
  const Names earlier(rounds.begin(), std::find(rounds.begin(), rounds.end(), later));
  if (has(earlier, asked)) return asked;
  const base::Value later_round = base::Quoted{later};
  throw base::InputError(
      Fact{"errors.read",
           {{"read", base::Quoted{asked}},
            {"accepted", earlier.empty()
                             ? Fact{"errors.no_round_before", {{"later", later_round}}}
                             : Fact{"errors.round_before",
                                    {{"later", later_round}, {"rounds", quoted(earlier)}}}}}});
}

}  // namespace stakewright::readings
