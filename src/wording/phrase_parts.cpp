#include "phrase_parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"

namespace stakewright::wording {
namespace {

constexpr std::string_view kHole = "{}";
/// As the program writes them.  "in" is no unit here: it is a verdict, and a direction.
constexpr std::array<std::string_view, 7> kUnits{"mm", "m", "cm", "ft", "sq", "cu", "yd"};

/// In UTF-8, Latin-1's letters are this byte and one more; a small one is its capital plus 0x20.
constexpr char kLatin1Letters = '\xC3';
constexpr unsigned char kFirstSmall = 0xA0;  // a grave
constexpr unsigned char kDivision = 0xB7;    // a sign among the letters
constexpr unsigned char kLastSmall = 0xBE;   // thorn; y diaeresis has its capital elsewhere
constexpr unsigned char kToCapital = 0x20;

bool is_small(char c) { return c >= 'a' && c <= 'z'; }
bool is_capital(char c) { return c >= 'A' && c <= 'Z'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// A hole as it stands in the other phrase.
struct Hole {
  std::size_t at = 0;
  std::size_t bytes = 0;
  std::size_t value = 0;
};

// `{}` counts on from the holes before it; `{3}` is the fourth.
std::vector<Hole> holes_of(std::string_view text) {
  std::vector<Hole> holes;
  for (std::size_t at = text.find('{'); at != std::string_view::npos; at = text.find('{', at + 1)) {
    if (text.substr(at, kHole.size()) == kHole) {
      holes.push_back({at, kHole.size(), holes.size()});
    } else if (at + 2 < text.size() && is_digit(text[at + 1]) && text[at + 2] == '}') {
      holes.push_back({at, 3, static_cast<std::size_t>(text[at + 1] - '0')});
    }
  }
  return holes;
}

}  // namespace

std::vector<std::string> split_at_holes(std::string_view phrase) {
  std::vector<std::string> between;
  for (std::size_t hole = phrase.find(kHole); hole != std::string_view::npos;
       hole = phrase.find(kHole)) {
    between.emplace_back(phrase.substr(0, hole));
    phrase.remove_prefix(hole + kHole.size());
  }
  between.emplace_back(phrase);
  return between;
}

void demand_same_holes(const std::string& english, std::size_t holes, const std::string& other) {
  std::set<std::size_t> used;
  for (const Hole& hole : holes_of(other)) used.insert(hole.value);
  const bool all = used.size() == holes && (holes == 0 || *used.rbegin() == holes - 1);
  if (all) return;
  throw base::InputError(
      fmt::format("phrase {}: read {}; accepted: words with the same {} holes, {{}} in order or "
                  "{{0}}, {{1}} by number",
                  base::in_quotes(english), base::in_quotes(other), holes));
}

std::string filled(std::string_view other, const std::vector<std::string>& values) {
  std::string text;
  std::size_t from = 0;
  for (const Hole& hole : holes_of(other)) {
    text += other.substr(from, hole.at - from);
    text += values[hole.value];
    from = hole.at + hole.bytes;
  }
  text += other.substr(from);
  return text;
}

std::vector<std::string_view> sentences(std::string_view text) {
  std::vector<std::string_view> found;
  std::size_t from = 0;
  for (std::size_t at = 0; at + 2 < text.size(); ++at) {
    if (text[at] != '.' || text[at + 1] != ' ' || is_small(text[at + 2])) continue;
    found.push_back(text.substr(from, at + 1 - from));
    from = at + 2;
  }
  found.push_back(text.substr(from));
  return found;
}

bool is_figure(std::string_view text) {
  std::size_t at = 0;
  while (at < text.size()) {
    if (!is_small(text[at]) && !is_capital(text[at])) {
      ++at;
      continue;
    }
    std::size_t end = at;
    while (end < text.size() && (is_small(text[end]) || is_capital(text[end]))) ++end;
    const std::string_view word = text.substr(at, end - at);
    const bool label = word.size() <= 2 && std::all_of(word.begin(), word.end(), is_capital);
    if (!label && std::find(kUnits.begin(), kUnits.end(), word) == kUnits.end()) return false;
    at = end;
  }
  return true;
}

std::string with_small_letter(std::string_view text) {
  std::string small(text);
  if (!small.empty() && is_capital(small.front()))
    small.front() = static_cast<char>(small.front() - 'A' + 'a');
  return small;
}

std::string with_capital(std::string text) {
  if (text.empty()) return text;
  if (is_small(text.front())) text.front() = static_cast<char>(text.front() - 'a' + 'A');
  if (text.front() != kLatin1Letters || text.size() < 2) return text;
  const auto letter = static_cast<unsigned char>(text[1]);
  if (letter >= kFirstSmall && letter <= kLastSmall && letter != kDivision)
    text[1] = static_cast<char>(letter - kToCapital);
  return text;
}

}  // namespace stakewright::wording
