// The correction sheet: what to do after the readings were checked.
//
// Each stake to move with two pulls, a small drawing and room for the reading after the move; or
// that nothing moves; or which tapes to pull because it is not clear yet.  Then the sentence for
// the foreman to sign.  docs/methods/field-form.md says what is on it and why.
#pragma once

#include <vector>

#include "stakewright/check/check.hpp"
#include "stakewright/forms/field_form.hpp"

namespace stakewright::forms {

/// All pages.  Only figures of the findings are used, no sentence of theirs: the words are those
/// of the wording.  Blanks are named as docs/methods/field-form.md says (`moved.C`, `after.C.A`).
std::vector<drawing::Page> correction_sheet(const job::Job& job, const check::Findings& findings,
                                            const Wording& wording, const FormChoices& choices);

}  // namespace stakewright::forms
