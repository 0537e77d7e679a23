// One table of a TOML file, read key by key.
//
// Asking for a key makes it known and says where its value goes.  `read` then refuses every other
// key, naming the nearest known one, and takes the values in the order they were asked for.  A
// refusal names file, line and key:
// `job.toml, line 7, plan.sides: read "5.5"; accepted: a whole number from 3 to 48`.
#pragma once

#include <toml++/toml.h>

#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "accepted.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/base/point.hpp"
#include "stakewright/base/quantity.hpp"

namespace stakewright::job {

/// Reads the text; `name` stands for the file in messages.
/// Throws InputError with file and line when it is not TOML, and when it nests without end.
toml::table toml_from_text(std::string_view text, const std::string& name);

// Readers of one value.  Each throws InputError with what was read and what is accepted.

/// The value as a message quotes it: `"5.5"`, `a list`, `a table`.
std::string words_of(const toml::node& value);

[[noreturn]] void refuse(const toml::node& value, const std::string& accepted);

/// Text, or a bare number as if it had been written as text.
std::string text_or_number(const toml::node& value, const char* accepted);

/// Text that may be a name in a readings file.
std::string name_from(const toml::node& value);

double number_in(const toml::node& value, const Range& range);

/// A length or an area as text or as a bare number in these units.
double length_in(const toml::node& value, base::Units units, const Range& range);
double area_in(const toml::node& value, base::Units units, const Range& range);

/// Two lengths: right and forward.
base::Point point_from(const toml::node& value, base::Units units);

/// The items of a list; `accepted` says what it is a list of.
const toml::array& list_from(const toml::node& value, const char* accepted);

/// The few words that a key takes, and what each means.
template <typename Meaning>
using Words = std::vector<std::pair<std::string_view, Meaning>>;

[[noreturn]] void refuse_word(const toml::node& value, const std::vector<std::string_view>& words);

template <typename Meaning>
Meaning word_from(const toml::node& value, const Words<Meaning>& words) {
  std::vector<std::string_view> known;
  for (const auto& [word, meaning] : words) {
    if (value.value_exact<std::string_view>() == word) return meaning;
    known.push_back(word);
  }
  refuse_word(value, known);
}

class Table {
 public:
  using Take = std::function<void(const toml::node&)>;

  /// A key that has been asked for.
  struct Asked {
    std::string_view key;  ///< a literal
    Take take;
    std::string needed_for;  ///< what is accepted where it may not be left out

    void needed(std::string accepted) { needed_for = std::move(accepted); }
  };

  /// A whole file, its bare lengths in meters until `use_units`.
  Table(const toml::table& table, std::string file);
  Table(const Table&) = delete;
  Table& operator=(const Table&) = delete;

  void use_units(base::Units units) { units_ = units; }

  Asked& ask(std::string_view key, Take take);

  /// What `reader` makes of the value; `into` stays as it is when the key is not there.
  template <typename Target, typename Reader>
  Asked& ask(std::string_view key, Target& into, Reader reader) {
    return ask(key, Take([&into, reader](const toml::node& value) { into = reader(value); }));
  }

  Asked& name(std::string_view key, std::string& into) { return ask(key, into, name_from); }
  /// Text of 0 to `most` characters on one line.
  Asked& text(std::string_view key, std::string& into, std::size_t most);
  Asked& whole(std::string_view key, int& into, int least, int most);
  Asked& number(std::string_view key, double& into, Range range);
  Asked& point(std::string_view key, base::Point& into);

  template <typename Target>
  Asked& length(std::string_view key, Target& into, Range range) {
    return ask(key, into,
               [this, range](const toml::node& value) { return length_in(value, units_, range); });
  }
  template <typename Target>
  Asked& quantity(std::string_view key, Target& into, base::Quantity quantity, Range range) {
    return ask(key, into, [quantity, range](const toml::node& value) {
      return quantity_in(value, quantity, range);
    });
  }
  template <typename Meaning>
  Asked& word(std::string_view key, Meaning& into, Words<Meaning> words) {
    return ask(key, into, [words = std::move(words)](const toml::node& value) {
      return word_from(value, words);
    });
  }

  using TakeTable = std::function<void(Table&)>;

  Asked& table(std::string_view key, TakeTable take);
  /// The tables of `[[key]]`, in order.
  Asked& tables(std::string_view key, TakeTable take);

  void read();

  /// The keys that are there, in the order they were written.
  [[nodiscard]] std::vector<std::string> keys() const;

  [[nodiscard]] bool has(std::string_view key) const { return table_->contains(key); }

  /// The value of a key that is there, its refusals put in their place.
  template <typename Reader>
  auto value(std::string_view key, Reader reader) const {
    return base::read_at(place(key), [&] { return reader(*table_->get(key)); });
  }

  /// Where the table stands: `job.toml, line 5, plan`; and a key of it that is there.
  [[nodiscard]] std::string place() const;
  [[nodiscard]] std::string place(std::string_view key) const;

  [[noreturn]] void refuse_table(const std::string& problem) const;
  [[noreturn]] void refuse_key(std::string_view key, const std::string& problem) const;

 private:
  Table(const toml::table& table, const Table& within, std::string path, int line);

  static double quantity_in(const toml::node& value, base::Quantity quantity, const Range& range);
  [[nodiscard]] std::string path_of(std::string_view key) const;
  void refuse_unknown() const;

  const toml::table* table_;
  std::string file_;
  std::string path_;
  int line_ = 1;
  base::Units units_ = base::Units::meters;
  std::vector<Asked> asked_;
};

}  // namespace stakewright::job
