#include <fmt/format.h>

#include "stakewright/base/error.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::base {

std::string word_of(Units units) {
  switch (units) {
    case Units::feet_inches:
      return "feet-inches";
    case Units::millimeters:
      return "mm";
    case Units::meters:
      return "m";
  }
  return "";
}

Units units_from_word(std::string_view word) {
  for (const Units units : {Units::feet_inches, Units::millimeters, Units::meters}) {
    if (word == word_of(units)) return units;
  }
  throw InputError(fmt::format("read {}; accepted are feet-inches, mm, m", in_quotes(word)));
}

}  // namespace stakewright::base
