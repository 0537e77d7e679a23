#include "braces.hpp"

#include <fmt/format.h>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::wording {
namespace {

[[noreturn]] void refuse(std::string_view text) {
  throw base::InputError(fmt::format("read {}; accepted: each {{ with its own }}, as in {{name}}",
                                     base::in_quotes(text)));
}

}  // namespace

Names names_in(std::string_view text) {
  Names names;
  std::string_view left = text;
  for (;;) {
    const std::size_t open = left.find_first_of("{}");
    if (open == std::string_view::npos) return names;
    const std::size_t close = left.find_first_of("{}", open + 1);
    if (left[open] == '}' || close == std::string_view::npos || left[close] == '{') refuse(text);
    const std::size_t capital = left[open + 1] == '^' ? 1 : 0;
    names.emplace(left.substr(open + 1 + capital, close - open - 1 - capital));
    left.remove_prefix(close + 1);
  }
}

Names names_in(const std::vector<std::string>& texts) {
  Names names;
  for (const std::string& text : texts) names.merge(names_in(text));
  return names;
}

}  // namespace stakewright::wording
