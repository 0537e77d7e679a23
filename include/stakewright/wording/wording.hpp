// The catalog of messages, by language: all words of reports, forms, drawings and errors.
//
// They live in field-forms/<language>.toml and are embedded when the program is built; a folder
// of such files may stand in for them.  field-forms/README.md says how to add a language.
#pragma once

#include <initializer_list>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace stakewright::wording {

class Wording {
 public:
  /// The text under a key such as `plan.forward`.  A key that is not there is our own bug.
  [[nodiscard]] const std::string& text(std::string_view key) const;

  /// The same, with `{name}` replaced by each value of that name.
  [[nodiscard]] std::string filled(
      std::string_view key,
      std::initializer_list<std::pair<std::string_view, std::string>> values) const;

  /// The message of an id, where one and several may differ: the text under the id, or that under
  /// `id.one` or `id.other`.
  [[nodiscard]] const std::string& pattern(std::string_view id, std::size_t count) const;

  /// The paragraphs under a key such as `plan.cautions`.
  [[nodiscard]] const std::vector<std::string>& paragraphs(std::string_view key) const;

  /// All keys of texts and of paragraphs, in order.
  [[nodiscard]] std::vector<std::string> keys() const;

  using Texts = std::map<std::string, std::string, std::less<>>;
  using Paragraphs = std::map<std::string, std::vector<std::string>, std::less<>>;
  Wording(Texts texts, Paragraphs paragraphs);

  [[nodiscard]] const Texts& texts() const { return texts_; }
  [[nodiscard]] const Paragraphs& all_paragraphs() const { return paragraphs_; }

 private:
  Texts texts_;
  Paragraphs paragraphs_;
};

/// `pattern` with `{name}` replaced by each value of that name.
std::string filled_in(std::string_view pattern,
                      std::initializer_list<std::pair<std::string_view, std::string>> values);

/// A language that nobody asked for.
inline constexpr const char* kUsualLanguage = "en";

/// Languages that are built in, by file name: "en" …
std::vector<std::string> languages();

/// Throws InputError unless `language` may be the name of a wording file: it becomes part of a
/// path.
void demand_code(const std::string& language);

/// Throws InputError, naming the languages there are, for any other.
Wording built_in(std::string_view language);

/// A wording, and what the user should know of it.
struct Chosen {
  Wording wording;
  std::vector<std::string> remarks;
};

/// The longest text and the longest list that a file may have; no sheet has room for more.
inline constexpr std::size_t kLongestText = 600;
inline constexpr std::size_t kMostParagraphs = 12;

/// The wording of a file's text; `name` stands for the file in messages.  What it leaves out is
/// the built-in wording of `language`, or English where that is not built in, with one remark.
///
/// Throws InputError with file, line and key when it is not TOML, has a key that there is not,
/// a text of more than `kLongestText` characters or of several lines, no text at all, more than
/// `kMostParagraphs` of them, or other words in braces than the English has.
Chosen from_text(std::string_view text, const std::string& name, std::string_view language);

/// The wording in `folder`/`language`.toml; built in when `folder` is empty.
/// Throws InputError as above, and when there is no such file, naming the languages there are.
Chosen chosen(const std::string& language, const std::string& folder);

}  // namespace stakewright::wording
