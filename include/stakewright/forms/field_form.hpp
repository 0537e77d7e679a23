// The field form: what a crew takes out on a clipboard.
//
// Sheet 1 plan and order of work, sheet 2 staking, sheet 3 readings; sheet 4, after the check, what
// to move.  2 to 4 go on over as many pages as they need.  Text is 10 pt or larger, rows for a
// carpenter's pencil are 8 mm or higher, and no label lies over another or over a line.
// docs/methods/field-form.md says what is on it and why.
#pragma once

#include <string_view>
#include <vector>

#include "stakewright/drawing/page.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/layout.hpp"
#include "stakewright/wording/voice.hpp"

namespace stakewright::check {
struct Findings;
}

namespace stakewright::forms {

using wording::Voice;

enum class Paper { letter, a4 };

/// US Letter for feet and inches, A4 for both metric units.
Paper usual_paper(base::Units units);

/// `letter` or `a4`; throws InputError for anything else.
Paper paper_from_text(std::string_view text);

struct FormChoices {
  Paper paper = Paper::a4;
  bool show_planned = false;  ///< print planned lengths on the reading sheet; without them
                              ///< nobody writes down what he expects to see
};

/// Sheets 1 to 3, in order.  `tapes`: the rows of the reading sheet as they are walked
/// (`reading_rows`); their points must be corners or the center pin.
/// Blanks are named for what is written there (`reading.A-C.1`), each name once.
std::vector<drawing::Page> field_form(const job::Job& job, const results::LayoutResult& layout,
                                      const std::vector<layout::Tape>& tapes, const Voice& voice,
                                      const FormChoices& choices);

/// Sheet 4: the verdict; each stake to move with two pulls, a small drawing and room for the
/// reading after the move, or which tapes to pull because it is not clear yet; and the sentence for
/// the foreman to sign.
std::vector<drawing::Page> correction_sheet(const job::Job& job, const check::Findings& findings,
                                            const Voice& voice, Paper paper);

}  // namespace stakewright::forms
