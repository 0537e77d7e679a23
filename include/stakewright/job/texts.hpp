// A TOML file of texts by key, such as the wording of a language.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stakewright::job {

struct TextValue {
  std::string read;                 ///< as a message quotes it: `"5.5"`, `a list`
  std::optional<std::string> text;  ///< of a value that is text
};

/// What stands under one key.
struct Texts {
  std::string key;  ///< with the tables it stands in: `plan.forward`
  int line = 0;     ///< of the key
  TextValue value;
  bool is_list = false;
  std::vector<TextValue> list;
};

/// All keys of the file, table by table, in the order they were written; `name` stands for the
/// file in messages.  Throws InputError with file and line when it is not TOML.
std::vector<Texts> texts_from_toml(std::string_view text, const std::string& name);

}  // namespace stakewright::job
