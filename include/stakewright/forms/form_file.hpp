// The form as the file that goes out, to print or to fill in on a screen, and back from the crew:
// what was typed into its blanks, as rows of a readings file.
//
// Which blank means what: docs/methods/field-form.md, "Blanks".
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "stakewright/drawing/page.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/job/written_rows.hpp"
#include "stakewright/readings/reading.hpp"
#include "stakewright/wording/voice.hpp"

namespace stakewright::forms {

/// A PDF with a field for every blank of the pages, and a record of the job and of the form's
/// units, so that `readings_on` can take it back.  Any pages: the sheets of the day, or a
/// correction sheet.
std::string form_file(const std::vector<drawing::Page>& pages, const job::Job& job,
                      const std::string& language, const wording::Voice& voice);

/// What a viewer says of a blank: `A-C, reading 1`; the name of one that no form has.
std::string hint_for(const std::string& blank, const wording::Voice& voice);

struct FormReadings {
  std::vector<job::WrittenRow> rows;  ///< in the order of the form; lengths mean the same in the
                                      ///< units of the job
  std::vector<readings::Reading> readings;  ///< the same rows, read
  std::vector<base::Fact> remarks;
};

/// Reads a filled form of this job.  Blanks left empty, boxes ticked and blanks that hold no
/// reading (names, weather) are left out.
///
/// Throws InputError, with `name` in front, as `fields::filled_from` does, when the file is no form
/// of this project's, when it was made for another job or another state of this one (saying what
/// changed), when a field is none of its blanks and holds something, and when a reading is none,
/// naming the field, what was read and what is accepted.
FormReadings readings_on(std::string_view pdf, const std::string& name, const job::Job& job);

}  // namespace stakewright::forms
