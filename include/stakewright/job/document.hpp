// A TOML text as plain values that remember their lines, in the order they were written.
// Keeps the TOML library in one source.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace stakewright::job {

struct Value;
struct Entry;

using List = std::vector<Value>;

struct Table {
  std::vector<Entry> entries;
};

/// A date or a time: nothing in a job is one.
struct Moment {};

struct Value {
  std::variant<std::string, std::int64_t, double, bool, Moment, List, Table> held;
  int line = 0;
};

struct Entry {
  std::string key;
  int line = 0;  ///< of the key
  Value value;
};

/// Reads the text; `name` stands for the file in messages.
/// Throws InputError with file and line when it is not TOML.
Table document_from_text(std::string_view text, const std::string& name);

/// The value as a message quotes it: `"5.5"`, `a list`, `a table`.
std::string words_of(const Value& value);

using Keys = std::vector<std::string_view>;

/// The known key that the fewest edits make of `key`.
std::string_view nearest_key(std::string_view key, const Keys& known);

}  // namespace stakewright::job
