// One table of the job file, read key by key.  Every refusal names file, line and key:
// `job.toml, line 7, plan.sides: read "5.5"; accepted: a whole number from 3 to 48`.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "stakewright/base/error.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/base/point.hpp"
#include "stakewright/base/quantity.hpp"
#include "stakewright/job/document.hpp"

namespace stakewright::job {

class Section {
 public:
  /// Throws InputError for a key that is not among `known`, naming the nearest that is.
  Section(const Table& table, std::string file, std::string path, int line, const Keys& known);

  /// A table whose keys are the user's own names.
  Section(const Table& table, std::string file, std::string path, int line);

  [[nodiscard]] const std::vector<Entry>& entries() const { return table_->entries; }
  [[nodiscard]] const Entry* find(std::string_view key) const;

  /// Throws InputError when the key is not there, saying what is accepted.
  [[nodiscard]] const Entry& demand(std::string_view key, std::string_view accepted) const;

  /// Where an entry stands: `job.toml, line 7, plan.sides`.
  [[nodiscard]] std::string place(const Entry& entry) const;

  /// Where the table stands: `job.toml, line 5, plan`.
  [[nodiscard]] std::string place() const;

  [[noreturn]] void refuse(const Entry& entry, const std::string& problem) const;

  /// What `reader` makes of the entry's value, its refusals put in their place.
  template <typename Reader>
  auto read(const Entry& entry, Reader reader) const {
    try {
      return reader(entry.value);
    } catch (const base::InputError& error) {
      throw error.at(place(entry));
    }
  }

  /// The same into `target`, which stays as it is when the key is not there.
  template <typename Target, typename Reader>
  void read(std::string_view key, Target& target, Reader reader) const {
    if (const Entry* entry = find(key)) target = read(*entry, reader);
  }

  /// A table within this one.  The caller has found the entry.
  [[nodiscard]] Section table(const Entry& entry, const Keys& known) const;
  [[nodiscard]] Section table_of_names(const Entry& entry) const;

  /// The tables of `[[key]]`, in order; none when the key is not there.
  [[nodiscard]] std::vector<Section> tables(std::string_view key, const Keys& known) const;

 private:
  [[nodiscard]] const Table& as_table(const Entry& entry) const;
  [[nodiscard]] std::string path_of(std::string_view key) const;
  void refuse_unknown(const Keys& known) const;

  const Table* table_;
  std::string file_;
  std::string path_;
  int line_;
};

/// A stretch of numbers, its ends within it or not, and its name in messages.
struct Range {
  double least = 0.0;
  double most = 0.0;
  bool with_least = true;
  bool with_most = true;
  const char* words = "";

  [[nodiscard]] bool has(double value) const;
};

// Readers of one value.  Each throws InputError with what was read and what is accepted.

inline constexpr std::size_t kLongestName = 40;    ///< characters
inline constexpr std::size_t kLongestTitle = 200;  ///< characters

/// Text of 0 to `most` characters on one line.
std::string line_of_text(const Value& value, std::size_t most);

/// A name that may stand in a readings file: 1 to 40 characters, no space at either end,
/// no # in front (such a line of a readings file is a remark).
std::string name_from(const Value& value);

/// Throws InputError unless `name` is one.
void demand_name(const std::string& name);

int whole_number(const Value& value, int least, int most);
double number_in(const Value& value, const Range& range);

/// A length as text or as a bare number in the job's units.
double length_in(const Value& value, base::Units units, const Range& range);
double area_in(const Value& value, base::Units units, const Range& range);
double quantity_in(const Value& value, base::Quantity quantity, const Range& range);

/// Two lengths: right and forward.
base::Point point_from(const Value& value, base::Units units);

/// The items of a list; `accepted` says what it is a list of.
const List& list_from(const Value& value, const char* accepted);

/// Text, or a bare number as if it had been written as text.
std::string text_or_number(const Value& value, const char* accepted);

/// One of the few words a key takes, and what it means.
template <typename Meaning>
struct Word {
  std::string_view text;
  Meaning meaning;
};

[[noreturn]] void refuse_word(const Value& value, const std::vector<std::string_view>& words);

template <typename Meaning>
Meaning word_from(const Value& value, const std::vector<Word<Meaning>>& words) {
  if (const auto* text = std::get_if<std::string>(&value.held))
    for (const Word<Meaning>& word : words)
      if (word.text == *text) return word.meaning;
  std::vector<std::string_view> known;
  known.reserve(words.size());
  for (const Word<Meaning>& word : words) known.push_back(word.text);
  refuse_word(value, known);
}

}  // namespace stakewright::job
