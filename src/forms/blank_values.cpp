#include "blank_values.hpp"

#include <fmt/format.h>

#include <array>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::forms {
namespace {

/// Spaces that do not break, as text copied from elsewhere has them, in UTF-8.
constexpr std::array<std::string_view, 3> kOtherSpaces{"\u00A0", "\u2009", "\u202F"};

/// Bytes of space at the front of the text.
std::size_t space_at(std::string_view text) {
  if (std::string_view(" \t\r\n").find(text.front()) != std::string_view::npos) return 1;
  for (const std::string_view space : kOtherSpaces)
    if (text.starts_with(space)) return space.size();
  return 0;
}

std::string tidied(std::string_view text) {
  std::string tidy;
  bool gap = false;
  while (!text.empty()) {
    if (const std::size_t space = space_at(text)) {
      gap = !tidy.empty();
      text.remove_prefix(space);
      continue;
    }
    if (gap) tidy += ' ';
    gap = false;
    tidy += text.front();
    text.remove_prefix(1);
  }
  return tidy;
}

}  // namespace

BlankValues::BlankValues(const fields::Filled& filled, const std::vector<std::string>& blanks)
    : blanks_(blanks.begin(), blanks.end()) {
  for (const fields::Field& field : filled.fields) {
    std::string text = tidied(field.text);
    if (text.empty()) continue;
    if (!has(field.blank))
      throw base::InputError(
          fmt::format("field {}: read {} in a field that the form was not made "
                      "with; accepted: text in the form's own blanks",
                      base::in_quotes(field.blank), base::in_quotes(text)));
    texts_.emplace(field.blank, std::move(text));
  }
}

bool BlankValues::has(const std::string& blank) const { return blanks_.count(blank) > 0; }

const std::string& BlankValues::text(const std::string& blank) const {
  static const std::string nothing;
  const auto found = texts_.find(blank);
  return found == texts_.end() ? nothing : found->second;
}

job::Written BlankValues::written(const std::string& blank) const {
  return {text(blank), "field " + blank};
}

}  // namespace stakewright::forms
