// Drawings by themselves, one a page: the plan, what was found against it, the roof and its parts.
//
// Black and white, no meaning by color; no words over others or over a line.
// docs/methods/drawings.md says what is on each and why.
#pragma once

#include <string>
#include <vector>

#include "stakewright/check/check.hpp"
#include "stakewright/drawing/page.hpp"
#include "stakewright/forms/field_form.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/carry.hpp"
#include "stakewright/results/layout.hpp"

namespace stakewright::forms {

/// A page and the name by which it is asked for: "plan", "found", "roof", "common", ...
struct Picture {
  std::string name;
  drawing::Page page;
};

/// "plan": stakes, baseline, pins, strings, lines, outlines, sizes.
std::vector<Picture> plan_pictures(const job::Job& job, const results::LayoutResult& layout,
                                   const Voice& voice, Paper paper);

/// "found": every corner as found against its planned place, displacements and ellipses enlarged
/// by a factor that the drawing states, suspects marked.
std::vector<Picture> found_pictures(const job::Job& job, const check::Findings& findings,
                                    const Voice& voice, Paper paper);

/// "roof", "common", "hip", "jack" and "fascia", those that the roof has.
///
/// `asked` may name one piece as the carry does, as in "hip C" or "jack B-C left 2": it is then
/// drawn as it is to be cut, after the others.  The roof stands over the corners of the case to cut
/// by (`CarryResult::to_cut_by`), else as planned.
std::vector<Picture> roof_pictures(const job::Job& job, const results::CarryResult& result,
                                   const std::string& asked, const Voice& voice, Paper paper);

}  // namespace stakewright::forms
