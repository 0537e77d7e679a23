#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "embedded.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/job/texts.hpp"
#include "stakewright/wording/phrases.hpp"
#include "stakewright/wording/wording.hpp"

namespace stakewright::wording {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kTable = "phrases.";

bool is_phrase(const std::string& text) {
  return !text.empty() && base::is_printable(text) && base::character_count(text) <= kLongestPhrase;
}

[[noreturn]] void refuse_phrase(const std::string& read) {
  throw base::InputError(
      fmt::format("read {}; accepted: text on one line, 1 to {} characters", read, kLongestPhrase));
}

std::string phrase_from(const std::string& english, const job::TextValue& value) {
  if (!is_phrase(english)) refuse_phrase(base::in_quotes(english));
  if (!value.text || !is_phrase(*value.text)) refuse_phrase(value.read);
  Phrases({{english, *value.text}}, {});  // refuses holes that do not match
  return *value.text;
}

std::vector<std::string> languages_of_reports() {
  std::vector<std::string> names{kUsualLanguage};
  for (const EmbeddedFile& file : embedded_phrase_books()) names.emplace_back(file.language);
  return names;
}

const EmbeddedFile* embedded(std::string_view language) {
  const auto& files = embedded_phrase_books();
  const auto found = std::find_if(files.begin(), files.end(), [&](const EmbeddedFile& file) {
    return file.language == language;
  });
  return found == files.end() ? nullptr : &*found;
}

Phrases::Pairs own_phrases(const std::string& language, const std::string& folder) {
  const fs::path path = fs::path(folder) / "report" / (language + ".toml");
  std::error_code unknown;
  if (folder.empty() || !fs::exists(path, unknown)) return {};
  return phrases_from_text(job::text_of_file(path.string()), path.string());
}

}  // namespace

Phrases::Pairs phrases_from_text(std::string_view text, const std::string& name) {
  const std::string file = base::shown(name);
  Phrases::Pairs pairs;
  for (const job::Texts& entry : job::texts_from_toml(text, file)) {
    base::read_at(fmt::format("{}, line {}", file, entry.line), [&] {
      if (!entry.key.starts_with(kTable))
        throw base::InputError(
            fmt::format("read {}; accepted: one table [phrases]", base::in_quotes(entry.key)));
      const std::string english = entry.key.substr(kTable.size());
      pairs.emplace(english, phrase_from(english, entry.value));
    });
  }
  return pairs;
}

Phrases::Pairs phrases_in(const std::string& language, const std::string& folder) {
  demand_code(language);
  if (language == kUsualLanguage) return {};
  Phrases::Pairs pairs = own_phrases(language, folder);
  const EmbeddedFile* file = embedded(language);
  if (file == nullptr && pairs.empty())
    throw base::InputError(fmt::format(
        "read {}; accepted: {}, or a language whose phrases stand in the folder of --forms",
        base::in_quotes(language), fmt::join(languages_of_reports(), ", ")));
  if (file != nullptr)
    pairs.merge(phrases_from_text(file->text, fmt::format("report/{}.toml", language)));
  return pairs;
}

}  // namespace stakewright::wording
