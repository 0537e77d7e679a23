// Pages of the field form as the file that goes out: to print, or to fill in on a screen.
#pragma once

#include <string>
#include <vector>

#include "stakewright/base/length.hpp"
#include "stakewright/drawing/page.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/wording/wording.hpp"

namespace stakewright::forms {

/// A PDF with a field for every blank of the pages, and a record of the job and of the form's
/// units, so that `readings_on` can take it back.  Any pages: the sheets of the day, or a
/// correction sheet.
std::string form_file(const std::vector<drawing::Page>& pages, const job::Job& job,
                      base::Units units, const std::string& language,
                      const wording::Wording& words);

/// What a viewer says of a blank: `A-C, reading 1`; its name where the wording has no words.
std::string hint_for(const std::string& blank, const wording::Wording& words);

}  // namespace stakewright::forms
