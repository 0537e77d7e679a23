#include "stakewright/forms/wording.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <toml++/toml.h>

#include <algorithm>
#include <cassert>

#include "embedded.hpp"
#include "stakewright/base/error.hpp"

namespace stakewright::forms {
namespace {

constexpr std::string_view kAccepted = "accepted are texts and lists of texts";

base::InputError problem_at(const std::string& name, const toml::source_region& where,
                            std::string_view problem) {
  return base::InputError(fmt::format("{}, line {}: {}", name, where.begin.line, problem));
}

std::vector<std::string> texts_of(const toml::array& list, const std::string& name) {
  std::vector<std::string> texts;
  for (const toml::node& entry : list) {
    const auto* text = entry.as_string();
    if (text == nullptr) throw problem_at(name, entry.source(), kAccepted);
    texts.push_back(text->get());
  }
  return texts;
}

void gather(const toml::table& table, const std::string& prefix, const std::string& name,
            Wording::Texts& texts, Wording::Paragraphs& paragraphs) {
  for (const auto& [key, node] : table) {
    const std::string full = prefix + std::string(key.str());
    if (const auto* inner = node.as_table()) {
      gather(*inner, full + ".", name, texts, paragraphs);
    } else if (const auto* list = node.as_array()) {
      paragraphs[full] = texts_of(*list, name);
    } else if (const auto* text = node.as_string()) {
      texts[full] = text->get();
    } else {
      throw problem_at(name, node.source(), fmt::format("\"{}\"; {}", full, kAccepted));
    }
  }
}

}  // namespace

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

std::vector<std::string> languages() {
  std::vector<std::string> names;
  for (const EmbeddedFile& file : embedded_files()) names.emplace_back(file.language);
  return names;
}

Wording wording_in(std::string_view language) {
  for (const EmbeddedFile& file : embedded_files()) {
    if (file.language == language)
      return wording_from_text(file.text, fmt::format("{}.toml", language));
  }
  throw base::InputError(fmt::format("language \"{}\"; there are forms in: {}", language,
                                     fmt::join(languages(), ", ")));
}

Wording wording_from_text(std::string_view text, const std::string& name) {
  try {
    Wording::Texts texts;
    Wording::Paragraphs paragraphs;
    gather(toml::parse(text, name), "", name, texts, paragraphs);
    return {std::move(texts), std::move(paragraphs)};
  } catch (const toml::parse_error& error) {
    throw problem_at(name, error.source(), error.description());
  }
}

}  // namespace stakewright::forms
