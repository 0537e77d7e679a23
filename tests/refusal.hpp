// The words in which bad input is refused.
#pragma once

#include <string>
#include <vector>

#include "stakewright/base/error.hpp"
#include "stakewright/wording/voice.hpp"

namespace stakewright {

/// A fact, or what is wrong, as an English report in millimeters says it.
template <typename What>
std::string told_in_english(const What& what, base::Units units = base::Units::millimeters) {
  return wording::Voice(wording::built_in("en"), units).text(what);
}

inline std::vector<std::string> told_in_english(const std::vector<base::Fact>& facts) {
  std::vector<std::string> texts;
  for (const base::Fact& fact : facts) texts.push_back(told_in_english(fact));
  return texts;
}

/// The message of the InputError that `act` throws, or a text no message holds when it throws none.
template <typename Act>
std::string refusal(Act act) {
  try {
    act();
  } catch (const base::InputError& error) {
    return told_in_english(error);
  }
  return "(taken without a word)";
}

}  // namespace stakewright
