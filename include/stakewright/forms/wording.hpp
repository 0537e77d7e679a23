// The words of the printed forms, by language.
//
// They live in field-forms/<language>.toml and are embedded when the program is
// built; field-forms/README.md says how to add a language.
#pragma once

#include <initializer_list>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace stakewright::forms {

class Wording {
 public:
  /// The text under a key such as `plan.forward`.  A key that is not there is our own bug.
  [[nodiscard]] const std::string& text(std::string_view key) const;

  /// The same, with `{name}` replaced by each value of that name.
  [[nodiscard]] std::string filled(
      std::string_view key,
      std::initializer_list<std::pair<std::string_view, std::string>> values) const;

  /// The paragraphs under a key such as `plan.cautions`.
  [[nodiscard]] const std::vector<std::string>& paragraphs(std::string_view key) const;

  /// All keys of texts and of paragraphs, in order.
  [[nodiscard]] std::vector<std::string> keys() const;

  using Texts = std::map<std::string, std::string, std::less<>>;
  using Paragraphs = std::map<std::string, std::vector<std::string>, std::less<>>;
  Wording(Texts texts, Paragraphs paragraphs);

 private:
  Texts texts_;
  Paragraphs paragraphs_;
};

/// `pattern` with `{name}` replaced by each value of that name.
std::string filled_in(std::string_view pattern,
                      std::initializer_list<std::pair<std::string_view, std::string>> values);

/// Languages that are built in, by file name: "en" …
std::vector<std::string> languages();

/// Throws InputError, naming the languages there are, for any other.
Wording wording_in(std::string_view language);

/// Wording from the text of such a file; `name` stands for it in messages.
/// Throws InputError with file and line when it is not TOML, or holds anything
/// but texts and lists of texts.
Wording wording_from_text(std::string_view text, const std::string& name);

}  // namespace stakewright::forms
