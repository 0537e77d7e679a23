// What was typed into the blanks of a filled form, as a readings file.
#pragma once

#include <string>
#include <vector>

#include "options.hpp"

namespace stakewright::draw {

struct FormAsCsv {
  std::string csv;
  std::vector<std::string> remarks;
};

/// Throws base::InputError for what is wrong with the job or the form.
FormAsCsv readings_of(const Options& options);

}  // namespace stakewright::draw
