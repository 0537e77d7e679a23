#include "stakewright/wording/phrases.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "phrase_parts.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::wording {
namespace {

/// A text made to be looked up for ever is given up after so many tries.
constexpr std::size_t kMostTries = 200000;

std::size_t words_in(const std::vector<std::string>& between) {
  std::size_t letters = 0;
  for (const std::string& part : between) letters += part.size();
  return letters;
}

}  // namespace

/// Looking up one sentence: what was found for each piece of it, and how many tries are left.
struct Phrases::Search {
  const Phrases& book;
  std::map<std::string, std::optional<std::string>, std::less<>> known;
  std::size_t tries = kMostTries;

  std::optional<std::string> look_up(std::string_view text);

 private:
  std::optional<std::string> by_phrases(std::string_view text);
  std::optional<std::string> as_written(std::string_view text);
  bool take(std::string_view text, std::vector<std::string>& values);
  bool fill(const Phrase& phrase, std::size_t hole, std::string_view rest,
            std::vector<std::string>& values);
};

std::optional<std::string> Phrases::Search::look_up(std::string_view text) {
  if (book.names_.contains(text)) return std::string(text);
  if (const auto whole = book.whole_.find(text); whole != book.whole_.end()) return whole->second;
  if (is_figure(text)) return std::string(text);
  if (const auto before = known.find(text); before != known.end()) return before->second;
  known.emplace(text, std::nullopt);  // a piece is not looked up within itself
  auto found = by_phrases(text);
  if (!found) found = as_written(text);
  known.insert_or_assign(std::string(text), found);
  return found;
}

// A clause that begins a sentence has a capital, one that ends it a full stop: neither needs a
// phrase of its own.
std::optional<std::string> Phrases::Search::as_written(std::string_view text) {
  if (text.ends_with('.') && text.size() > 1) {
    auto clause = look_up(text.substr(0, text.size() - 1));
    if (clause) return std::move(*clause) + '.';
  }
  const std::string small = with_small_letter(text);
  if (small == text) return std::nullopt;
  const auto clause = look_up(small);
  if (!clause) return std::nullopt;
  return with_capital(*clause);
}

std::optional<std::string> Phrases::Search::by_phrases(std::string_view text) {
  for (const Phrase& phrase : book.phrases_) {
    const std::string& first = phrase.between.front();
    if (!text.starts_with(first) || !text.ends_with(phrase.between.back())) continue;
    std::vector<std::string> values;
    if (fill(phrase, 0, text.substr(first.size()), values)) return filled(phrase.other, values);
  }
  return std::nullopt;
}

bool Phrases::Search::take(std::string_view text, std::vector<std::string>& values) {
  auto value = text.empty() ? std::nullopt : look_up(text);
  if (value) values.push_back(std::move(*value));
  return value.has_value();
}

// A hole ends where the words after it begin: each such place is tried, the nearest first.
bool Phrases::Search::fill(const Phrase& phrase, std::size_t hole, std::string_view rest,
                           std::vector<std::string>& values) {
  const std::string& after = phrase.between[hole + 1];
  const bool last = hole + 2 == phrase.between.size();
  if (last) return take(rest.substr(0, rest.size() - std::min(after.size(), rest.size())), values);
  for (std::size_t end = rest.find(after); end != std::string_view::npos && tries > 0;
       end = rest.find(after, end + 1)) {
    --tries;
    if (!take(rest.substr(0, end), values)) continue;
    if (fill(phrase, hole + 1, rest.substr(end + after.size()), values)) return true;
    values.pop_back();
  }
  return false;
}

Phrases::Phrases(const Pairs& pairs, std::vector<std::string> names)
    : names_(names.begin(), names.end()), english_(false) {
  for (const auto& [english, other] : pairs) {
    Phrase phrase{split_at_holes(english), other};
    demand_same_holes(english, phrase.between.size() - 1, other);
    if (phrase.between.size() == 1) {
      whole_.emplace(english, other);
    } else {
      phrases_.push_back(std::move(phrase));
    }
  }
  std::stable_sort(phrases_.begin(), phrases_.end(), [](const Phrase& a, const Phrase& b) {
    return words_in(a.between) > words_in(b.between);
  });
}

std::string Phrases::said(std::string_view english) {
  if (english_ || english.empty()) return std::string(english);
  if (names_.contains(english)) return std::string(english);
  std::string text;
  std::set<std::string> lacking;
  for (const std::string_view sentence : sentences(english)) {
    const auto found = Search{*this, {}}.look_up(sentence);
    if (!found) lacking.emplace(sentence);
    if (!text.empty()) text += ' ';
    text += found.value_or(std::string(sentence));
  }
  if (lacking.empty()) return text;
  // A name with a full stop in it, or a remark in brackets after a sentence.
  if (const auto found = Search{*this, {}}.look_up(english)) return *found;
  missing_.merge(lacking);
  return text;
}

}  // namespace stakewright::wording
