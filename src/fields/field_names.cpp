#include <array>
#include <utility>

#include "stakewright/fields/fillable.hpp"

namespace stakewright::fields {
namespace {

struct Spelling {
  char in_blank;
  std::string_view in_field;
};

// The per cent sign is among them, so that every name has its way back.
constexpr std::array<Spelling, 3> kSpellings{{{'.', ":"}, {':', "%3A"}, {'%', "%25"}}};

}  // namespace

std::string field_name(std::string_view blank) {
  std::string field;
  for (const char c : blank) {
    std::string_view spelled(&c, 1);
    for (const Spelling& spelling : kSpellings)
      if (c == spelling.in_blank) spelled = spelling.in_field;
    field += spelled;
  }
  return field;
}

std::string blank_name(std::string_view field) {
  std::string blank;
  while (!field.empty()) {
    std::size_t taken = 1;
    char c = field.front();
    for (const Spelling& spelling : kSpellings) {
      if (!field.starts_with(spelling.in_field)) continue;
      c = spelling.in_blank;
      taken = spelling.in_field.size();
    }
    blank += c;
    field.remove_prefix(taken);
  }
  return blank;
}

}  // namespace stakewright::fields
