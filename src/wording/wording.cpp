#include "stakewright/wording/wording.hpp"

#include <algorithm>
#include <cassert>

namespace stakewright::wording {

Wording::Wording(Texts texts, Paragraphs paragraphs)
    : texts_(std::move(texts)), paragraphs_(std::move(paragraphs)) {}

const std::string& Wording::text(std::string_view key) const {
  const auto found = texts_.find(key);
  assert(found != texts_.end());
  return found->second;
}

std::string Wording::filled(
    std::string_view key,
    std::initializer_list<std::pair<std::string_view, std::string>> values) const {
  return filled_in(text(key), values);
}

const std::string& Wording::pattern(std::string_view id, std::size_t count) const {
  const auto found = texts_.find(id);
  if (found != texts_.end()) return found->second;
  return text(std::string(id) + (count == 1 ? ".one" : ".other"));
}

const std::vector<std::string>& Wording::paragraphs(std::string_view key) const {
  const auto found = paragraphs_.find(key);
  assert(found != paragraphs_.end());
  return found->second;
}

std::vector<std::string> Wording::keys() const {
  std::vector<std::string> keys;
  for (const auto& entry : texts_) keys.push_back(entry.first);
  for (const auto& entry : paragraphs_) keys.push_back(entry.first);
  return keys;
}

std::string filled_in(std::string_view pattern,
                      std::initializer_list<std::pair<std::string_view, std::string>> values) {
  std::string result;
  while (!pattern.empty()) {
    const std::size_t open = pattern.find('{');
    const std::size_t close = pattern.find('}', open);
    result += pattern.substr(0, open);
    if (close == std::string_view::npos) {
      if (open != std::string_view::npos) result += pattern.substr(open);
      break;
    }
    const std::string_view name = pattern.substr(open + 1, close - open - 1);
    const auto* value = std::find_if(values.begin(), values.end(),
                                     [&](const auto& entry) { return entry.first == name; });
    result += value != values.end() ? value->second : pattern.substr(open, close - open + 1);
    pattern.remove_prefix(close + 1);
  }
  return result;
}

}  // namespace stakewright::wording
