// Every field of a document, by its full name.
#pragma once

#include <string>
#include <vector>

#include <qpdf/QPDF.hh>

namespace stakewright::fields {

struct Found {
  std::string name;  ///< with those of its parents in front
  std::string text;
};

struct FoundFields {
  std::vector<Found> fields;
  bool has_actions = false;  ///< something would act by itself or at a touch
};

/// The fields of the form and those that hang on a page only, as programs that copy pages leave
/// them.  Throws InputError as `filled_from` does.
FoundFields found_fields(QPDF& pdf);

}  // namespace stakewright::fields
