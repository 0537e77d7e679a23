// A PDF with a form field for every blank of its pages.
//
// Knows neither stakes nor readings: names and rectangles come with the pages, and what the file
// is to remember comes as one text.  ISO 32000-1, 12.7 (interactive forms).
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "stakewright/drawing/page.hpp"

namespace stakewright::fields {

/// What a form carries besides its blanks.
struct Extras {
  /// Kept in a field that nobody sees or edits, and given back by `filled_from`.  It hangs on
  /// every page, so that one page taken out of the form still has it.
  std::string record;
  std::string language;  ///< of the words on the pages: "en" …
  /// What a viewer says of a blank when the pointer rests on it, and reads aloud; from its name.
  std::function<std::string(const std::string& blank)> hint;
};

/// Name of the field that holds the record.
inline constexpr const char* kRecordField = "stakewright";

/// The field's name in the file.  A field may have no point in its name (ISO 32000-1, 12.7.3.2), so
/// `reading.A-C.1` becomes `reading:A-C:1`; a colon and a per cent sign of the blank's own become
/// `%3A` and `%25`.
std::string field_name(std::string_view blank);

/// The blank of that field.
std::string blank_name(std::string_view field);

/// `pdf`, drawn from `pages` by `drawing::pdf`, with one text field or check box for each blank,
/// in the order of the blanks, which is the order of the Tab key.  No field comes with a script,
/// and the same input gives the same bytes.  Each blank's name is there once.
std::string fillable(const std::string& pdf, const std::vector<drawing::Page>& pages,
                     const Extras& extras);

}  // namespace stakewright::fields
