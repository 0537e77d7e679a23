// The words in which bad input is refused.
#pragma once

#include <string>

#include "stakewright/base/error.hpp"

namespace stakewright {

/// The message of the InputError that `act` throws, or a text no message holds when it throws none.
template <typename Act>
std::string refusal(Act act) {
  try {
    act();
  } catch (const base::InputError& error) {
    return error.what();
  }
  return "(taken without a word)";
}

}  // namespace stakewright
