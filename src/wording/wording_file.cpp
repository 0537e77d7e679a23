#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "braces.hpp"
#include "embedded.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/job/texts.hpp"
#include "stakewright/wording/wording.hpp"

namespace stakewright::wording {
namespace {

namespace fs = std::filesystem;

/// A remark names no more missing keys than this.
constexpr std::size_t kKeysNamed = 5;

/// Language codes: letters a to z, digits and hyphens, as in `pt-br`.
constexpr std::size_t kLongestCode = 20;

[[noreturn]] void refuse(const job::TextValue& value, const std::string& accepted) {
  throw base::InputError(fmt::format("read {}; accepted: {}", value.read, accepted));
}

std::string text_from(const job::TextValue& value) {
  if (!value.text || value.text->empty() || !base::is_printable(*value.text) ||
      base::character_count(*value.text) > kLongestText)
    refuse(value, fmt::format("text on one line, 1 to {} characters", kLongestText));
  names_in(*value.text);  // refuses a loose brace
  return *value.text;
}

std::vector<std::string> texts_from(const job::Texts& entry) {
  if (entry.list.empty() || entry.list.size() > kMostParagraphs)
    refuse(entry.value, fmt::format("a list of 1 to {} texts", kMostParagraphs));
  std::vector<std::string> texts;
  for (const job::TextValue& item : entry.list) texts.push_back(text_from(item));
  return texts;
}

std::string in_braces(const Names& names) {
  if (names.empty()) return "no words in braces";
  std::vector<std::string> listed;
  for (const std::string& name : names) listed.push_back(fmt::format("{{{}}}", name));
  return fmt::format("{}, each of them and no other", fmt::join(listed, " "));
}

void demand_same_names(const Names& read, const Names& english) {
  if (read == english) return;
  std::vector<std::string> listed;
  for (const std::string& name : read) listed.push_back(fmt::format("{{{}}}", name));
  throw base::InputError(
      fmt::format("read {}; accepted: {}",
                  listed.empty() ? "no words in braces"
                                 : base::in_quotes(fmt::format("{}", fmt::join(listed, " "))),
                  in_braces(english)));
}

/// What one file says, over a wording that has every key.
class WordingFile {
 public:
  WordingFile(std::string name, const Wording& english)
      : name_(std::move(name)), english_(english) {
    keys_ = english.keys();
  }

  void read(std::string_view text) {
    for (const job::Texts& entry : job::texts_from_toml(text, name_))
      base::read_at(fmt::format("{}, line {}", name_, entry.line), [&] { take(entry); });
  }

  [[nodiscard]] Wording completed(const Wording& by, std::vector<std::string>& missing) const {
    Wording::Texts texts = texts_;
    Wording::Paragraphs paragraphs = paragraphs_;
    for (const auto& entry : by.texts())
      if (texts.insert(entry).second) missing.push_back(entry.first);
    for (const auto& entry : by.all_paragraphs())
      if (paragraphs.insert(entry).second) missing.push_back(entry.first);
    return {std::move(texts), std::move(paragraphs)};
  }

 private:
  void take(const job::Texts& entry) {
    const std::string& key = entry.key;
    const auto text = english_.texts().find(key);
    const auto list = english_.all_paragraphs().find(key);
    if (text == english_.texts().end() && list == english_.all_paragraphs().end()) refuse_key(key);
    base::read_at(key, [&] {
      if (text != english_.texts().end()) {
        texts_[key] = text_from(entry.value);
        demand_same_names(names_in(texts_[key]), names_in(text->second));
      } else {
        paragraphs_[key] = texts_from(entry);
        demand_same_names(names_in(paragraphs_[key]), names_in(list->second));
      }
    });
  }

  [[noreturn]] void refuse_key(const std::string& key) const {
    const std::vector<std::string_view> known(keys_.begin(), keys_.end());
    throw base::InputError(
        fmt::format("read the key {}; accepted: the keys of the English wording; "
                    "the nearest is {}",
                    base::in_quotes(key), base::nearest(key, known)));
  }

  std::string name_;
  const Wording& english_;
  std::vector<std::string> keys_;
  Wording::Texts texts_;
  Wording::Paragraphs paragraphs_;
};

const EmbeddedFile* embedded(std::string_view language) {
  const auto& files = embedded_files();
  const auto found = std::find_if(files.begin(), files.end(), [&](const EmbeddedFile& file) {
    return file.language == language;
  });
  return found == files.end() ? nullptr : &*found;
}

/// English, taken as it stands: all others are held against it.
Wording english() {
  Wording::Texts texts;
  Wording::Paragraphs paragraphs;
  for (const job::Texts& entry : job::texts_from_toml(embedded(kUsualLanguage)->text, "en.toml")) {
    if (entry.is_list)
      paragraphs[entry.key] = texts_from(entry);
    else
      texts[entry.key] = text_from(entry.value);
  }
  return {std::move(texts), std::move(paragraphs)};
}

std::string remark_on(const std::vector<std::string>& missing, const std::string& name,
                      const std::string& stand_in) {
  const std::size_t named = std::min(missing.size(), kKeysNamed);
  std::string keys = fmt::format(
      "{}", fmt::join(missing.begin(), missing.begin() + static_cast<std::ptrdiff_t>(named), ", "));
  if (named < missing.size()) keys += fmt::format(" and {} more", missing.size() - named);
  return fmt::format("{} leaves out {}; the built-in words ({}) stand there", name, keys, stand_in);
}

std::vector<std::string> languages_in(const std::string& folder) {
  std::vector<std::string> found;
  std::error_code unreadable;
  for (const auto& entry : fs::directory_iterator(folder, unreadable))
    if (entry.path().extension() == ".toml") found.push_back(entry.path().stem().string());
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace

void demand_code(const std::string& language) {
  constexpr const char* kOf = "abcdefghijklmnopqrstuvwxyz0123456789-";
  if (!language.empty() && language.size() <= kLongestCode &&
      language.find_first_not_of(kOf) == std::string::npos)
    return;
  throw base::InputError(
      fmt::format("read {}; accepted: the name of a wording file without its "
                  "ending, small letters, digits and hyphens, as in es",
                  base::in_quotes(language)));
}

std::vector<std::string> languages() {
  std::vector<std::string> names;
  for (const EmbeddedFile& file : embedded_files()) names.emplace_back(file.language);
  return names;
}

Wording built_in(std::string_view language) {
  const EmbeddedFile* file = embedded(language);
  if (file == nullptr) {
    throw base::InputError(fmt::format("read {}; the languages built in are: {}",
                                       base::in_quotes(language), fmt::join(languages(), ", ")));
  }
  if (language == kUsualLanguage) return english();
  const Wording reference = english();
  const std::string name = fmt::format("{}.toml", language);
  WordingFile words(name, reference);
  words.read(file->text);
  std::vector<std::string> missing;
  return words.completed(reference, missing);
}

Chosen from_text(std::string_view text, const std::string& name, std::string_view language) {
  const Wording reference = english();
  WordingFile words(name, reference);
  words.read(text);
  const std::string stand_in(embedded(language) != nullptr ? language : kUsualLanguage);
  std::vector<std::string> missing;
  Chosen result{words.completed(built_in(stand_in), missing), {}};
  if (!missing.empty()) result.remarks.push_back(remark_on(missing, name, stand_in));
  return result;
}

Chosen chosen(const std::string& language, const std::string& folder) {
  base::read_at("--language", [&] { demand_code(language); });
  if (folder.empty()) return {base::read_at("--language", [&] { return built_in(language); }), {}};
  const fs::path path = fs::path(folder) / (language + ".toml");
  std::error_code unknown;
  if (!fs::exists(path, unknown)) {
    const auto there = languages_in(folder);
    throw base::InputError(fmt::format(
        "--forms: there is no {}; accepted: a folder with that file{}", base::shown(path.string()),
        there.empty() ? "" : fmt::format("; this one has: {}", fmt::join(there, ", "))));
  }
  return from_text(job::text_of_file(path.string()), path.string(), language);
}

}  // namespace stakewright::wording
