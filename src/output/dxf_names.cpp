#include "dxf_names.hpp"

#include <fmt/format.h>

#include <cstddef>
#include <cstdint>

#include "stakewright/base/text.hpp"

namespace stakewright::output {
namespace {

constexpr char32_t kPastTheFirstPlane = 0x10000;
constexpr std::string_view kNoLayerNameHas = "<>/\\\":;?*|,=`^%";

/// The next character of well-formed UTF-8, taken off the front of `text`.
char32_t take_character(std::string_view& text) {
  const auto byte = [&text](std::size_t i) {
    return static_cast<std::uint32_t>(static_cast<unsigned char>(text[i]));
  };
  const std::uint32_t first = byte(0);
  const std::size_t size = first < 0x80 ? 1 : first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
  std::uint32_t character = size == 1 ? first : first & (0xFFU >> (size + 1));
  for (std::size_t i = 1; i < size; ++i) character = character << 6U | (byte(i) & 0x3FU);
  text.remove_prefix(size);
  return character;
}

std::string escaped(char32_t character) {
  const auto written = [](char32_t unit) {
    return fmt::format("\\U+{:04X}", static_cast<std::uint32_t>(unit));
  };
  if (character < kPastTheFirstPlane) return written(character);
  const char32_t rest = character - kPastTheFirstPlane;
  return written(0xD800 + (rest >> 10U)) + written(0xDC00 + (rest & 0x3FFU));
}

bool stands_for_itself(char32_t character) {
  return character >= ' ' && character <= '~' && character != '\\' && character != '^' &&
         character != '%';
}

/// A character of a layer's name.
std::string of_layer(char32_t character) {
  if (character >= kPastTheFirstPlane) return "_";
  if (character > '~') return escaped(character);
  const char plain = static_cast<char>(character);
  return kNoLayerNameHas.find(plain) == std::string_view::npos ? std::string(1, plain) : "_";
}

}  // namespace

std::string dxf_text(std::string_view text) {
  std::string result;
  while (!text.empty()) {
    const char32_t character = take_character(text);
    result += stands_for_itself(character) ? std::string(1, static_cast<char>(character))
                                           : escaped(character);
  }
  return result;
}

std::string DxfLayerNames::name(std::string_view wanted) {
  std::string base;
  while (!wanted.empty()) base += of_layer(take_character(wanted));
  std::string name = base;
  for (int i = 2; !taken_.insert(base::lower_case(name)).second; ++i)
    name = fmt::format("{}-{}", base, i);
  return name;
}

}  // namespace stakewright::output
