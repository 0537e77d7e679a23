// The field form: what a crew takes out on a clipboard.
//
// Sheet 1 plan and order of work, sheet 2 staking, sheet 3 readings; 2 and 3 go
// on over as many pages as they need.  Text is 10 pt or larger, rows for a
// carpenter's pencil are 8 mm or higher, and no label lies over another or over
// a line.  docs/methods/field-form.md says what is on it and why.
#pragma once

#include <vector>

#include "stakewright/base/length.hpp"
#include "stakewright/drawing/page.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/layout.hpp"
#include "stakewright/wording/wording.hpp"

namespace stakewright::forms {

using wording::Wording;

enum class Paper { letter, a4 };

/// US Letter for feet and inches, A4 for both metric units.
Paper usual_paper(base::Units units);

/// `letter` or `a4`; throws InputError for anything else.
Paper paper_from_text(std::string_view text);

struct FormChoices {
  base::Units units = base::Units::millimeters;
  Paper paper = Paper::a4;
  bool show_planned = false;  ///< print planned lengths on the reading sheet; without them
                              ///< nobody writes down what he expects to see
};

/// All pages, in order.  `tapes`: the rows of the reading sheet as they are walked
/// (`reading_rows`); their points must be corners or the center pin.
/// Blanks are named for what is written there (`reading.A-C.1`), each name once.
std::vector<drawing::Page> field_form(const job::Job& job, const results::LayoutResult& layout,
                                      const std::vector<layout::Tape>& tapes,
                                      const Wording& wording, const FormChoices& choices);

}  // namespace stakewright::forms
