// What stands in the blanks of a filled form, by the blanks' names.
#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "stakewright/fields/filled.hpp"
#include "stakewright/job/written_rows.hpp"

namespace stakewright::forms {

class BlankValues {
 public:
  /// Throws InputError for a field that is none of `blanks` and holds something.
  BlankValues(const fields::Filled& filled, const std::vector<std::string>& blanks);

  /// Whether the form has such a blank, filled in or not.
  [[nodiscard]] bool has(const std::string& blank) const;

  /// Line ends and runs of spaces made one space, none at the ends; empty when nothing is there.
  [[nodiscard]] const std::string& text(const std::string& blank) const;

  /// The same with its place for messages.
  [[nodiscard]] job::Written written(const std::string& blank) const;

 private:
  std::map<std::string, std::string, std::less<>> texts_;
  std::set<std::string, std::less<>> blanks_;
};

}  // namespace stakewright::forms
