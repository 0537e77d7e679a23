// What somebody wrote into the fields of a PDF.  The file is hostile until it has been read.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace stakewright::fields {

/// Larger files are refused unread, in bytes.  A form of 48 sides has a third of a megabyte.
inline constexpr std::size_t kLargestForm = 16UL * 1024UL * 1024UL;

/// No form has more fields.
inline constexpr std::size_t kMostFields = 20000;

struct Field {
  std::string blank;  ///< name of the blank: `reading.A-C.1`
  std::string text;   ///< UTF-8, as it was typed; empty for a check box
};

struct Filled {
  std::string record;  ///< of the form; empty when the file has none
  std::vector<Field> fields;
  bool has_actions = false;  ///< scripts and the like; none of them was run
};

/// Reads the fields.  A field that is there twice counts once.
///
/// Throws InputError when this is no PDF, or is damaged or cut short, needs a password, has an XFA
/// form, more than `kMostFields` fields, a field that does not hold text, or one twice with
/// different texts.  Nothing is repaired: a repair may lose what was written.
Filled filled_from(std::string_view bytes);

}  // namespace stakewright::fields
