#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "braces.hpp"
#include "embedded.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/job/document.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/wording/wording.hpp"

namespace stakewright::wording {
namespace {

namespace fs = std::filesystem;

/// A remark names no more missing keys than this.
constexpr std::size_t kKeysNamed = 5;

/// Language codes: letters a to z, digits and hyphens, as in `pt-br`.
constexpr std::size_t kLongestCode = 20;

std::string shown(const std::string& path) {
  return base::is_printable(path) ? path : base::in_quotes(path);
}

[[noreturn]] void refuse(const job::Value& value, const std::string& accepted) {
  throw base::InputError(fmt::format("read {}; accepted: {}", job::words_of(value), accepted));
}

std::string text_from(const job::Value& value) {
  const auto* text = std::get_if<std::string>(&value.held);
  if (text == nullptr || text->empty() || !base::is_printable(*text) ||
      base::character_count(*text) > kLongestText)
    refuse(value, fmt::format("text on one line, 1 to {} characters", kLongestText));
  names_in(*text);  // refuses a loose brace
  return *text;
}

std::vector<std::string> texts_from(const job::Value& value) {
  const auto* list = std::get_if<job::List>(&value.held);
  if (list == nullptr || list->empty() || list->size() > kMostParagraphs)
    refuse(value, fmt::format("a list of 1 to {} texts", kMostParagraphs));
  std::vector<std::string> texts;
  for (const job::Value& entry : *list) texts.push_back(text_from(entry));
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

  void read(const job::Table& table, const std::string& prefix = "") {
    for (const job::Entry& entry : table.entries) {
      const std::string key = prefix + entry.key;
      if (const auto* inner = std::get_if<job::Table>(&entry.value.held)) {
        read(*inner, key + ".");
        continue;
      }
      base::read_at(fmt::format("{}, line {}", name_, entry.line), [&] { take(key, entry.value); });
    }
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
  void take(const std::string& key, const job::Value& value) {
    const auto text = english_.texts().find(key);
    const auto list = english_.all_paragraphs().find(key);
    if (text == english_.texts().end() && list == english_.all_paragraphs().end()) refuse_key(key);
    base::read_at(key, [&] {
      if (text != english_.texts().end()) {
        texts_[key] = text_from(value);
        demand_same_names(names_in(texts_[key]), names_in(text->second));
      } else {
        paragraphs_[key] = texts_from(value);
        demand_same_names(names_in(paragraphs_[key]), names_in(list->second));
      }
    });
  }

  [[noreturn]] void refuse_key(const std::string& key) const {
    const job::Keys known(keys_.begin(), keys_.end());
    throw base::InputError(
        fmt::format("read the key {}; accepted: the keys of the English wording; "
                    "the nearest is {}",
                    base::in_quotes(key), job::nearest_key(key, known)));
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

void take_all(const job::Table& table, const std::string& prefix, Wording::Texts& texts,
              Wording::Paragraphs& paragraphs) {
  for (const job::Entry& entry : table.entries) {
    const std::string key = prefix + entry.key;
    if (const auto* inner = std::get_if<job::Table>(&entry.value.held))
      take_all(*inner, key + ".", texts, paragraphs);
    else if (std::holds_alternative<job::List>(entry.value.held))
      paragraphs[key] = texts_from(entry.value);
    else
      texts[key] = text_from(entry.value);
  }
}

/// English, taken as it stands: all others are held against it.
Wording english() {
  Wording::Texts texts;
  Wording::Paragraphs paragraphs;
  take_all(job::document_from_text(embedded(kUsualLanguage)->text, "en.toml"), "", texts,
           paragraphs);
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
  words.read(job::document_from_text(file->text, name));
  std::vector<std::string> missing;
  return words.completed(reference, missing);
}

Chosen from_text(std::string_view text, const std::string& name, std::string_view language) {
  const Wording reference = english();
  WordingFile words(name, reference);
  words.read(job::document_from_text(text, name));
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
        "--forms: there is no {}; accepted: a folder with that file{}", shown(path.string()),
        there.empty() ? "" : fmt::format("; this one has: {}", fmt::join(there, ", "))));
  }
  return from_text(job::text_of_file(path.string()), path.string(), language);
}

}  // namespace stakewright::wording
