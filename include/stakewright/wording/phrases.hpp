// What the report says, in another language than English.
//
// The report is written in English by code that knows no other language.  A phrase book holds
// English phrases with holes ("Stake {} is {} of its place.") and what to say instead; what stands
// in a hole is looked up in its turn.  Names of the job, figures and labels stay as they are.
#pragma once

#include <cstddef>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace stakewright::wording {

class Phrases {
 public:
  using Pairs = std::map<std::string, std::string, std::less<>>;

  /// No phrases: everything stays English and nothing counts as missing.
  Phrases() = default;

  /// `pairs`: an English phrase to the other one.  `{}` is a hole; the other phrase may number its
  /// holes, `{0}`, `{1}`, to change their order.  `names`: what somebody called something of the
  /// job, never looked up.
  /// Throws InputError, naming the phrase, when a hole of the one is not in the other.
  Phrases(const Pairs& pairs, std::vector<std::string> names);

  /// More names that are never looked up.
  void keep(const std::vector<std::string>& names) { names_.insert(names.begin(), names.end()); }

  /// The text in the other language.  A text of several sentences is taken sentence by sentence;
  /// a sentence that the book does not have stays English and is kept in `missing`.
  std::string said(std::string_view english);

  [[nodiscard]] const std::set<std::string>& missing() const { return missing_; }

 private:
  struct Phrase {
    std::vector<std::string> between;  ///< what stands before, between and after the holes
    std::string other;
  };

  struct Search;

  std::vector<Phrase> phrases_;  ///< with holes, those with most words first
  Pairs whole_;                  ///< without holes
  std::set<std::string, std::less<>> names_;
  std::set<std::string> missing_;
  bool english_ = true;
};

/// A phrase longer than this is refused; no sentence of the report is so long.
inline constexpr std::size_t kLongestPhrase = 600;

/// Phrases from the text of a TOML file with one table `[phrases]`, English in quotes to the other
/// language in quotes; `name` stands for the file in messages.
/// Throws InputError with file and line when it is not that.
Phrases::Pairs phrases_from_text(std::string_view text, const std::string& name);

/// The phrases of a language: those built in, and over them those of
/// `folder`/report/`language`.toml where there is one.  None for English. Throws InputError for a
/// language that has neither.
Phrases::Pairs phrases_in(const std::string& language, const std::string& folder);

}  // namespace stakewright::wording
