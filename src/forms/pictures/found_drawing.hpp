// The corners as found over the plan, enlarged, with what is suspected.
#pragma once

#include <cstddef>
#include <vector>

#include "found_view.hpp"
#include "stakewright/wording/wording.hpp"

namespace stakewright::forms {

using wording::Wording;

/// What a drawing shows, for the key beside it.
struct FoundDrawn {
  bool moves = false;
  bool hatched = false;   ///< a tape under suspicion
  bool left_out = false;  ///< a tape left out, and not under suspicion
  bool undecided = false;
  bool out = false;
  bool not_fixed = false;
  bool tolerance = false;
  std::vector<std::size_t> numbered;  ///< entries of `suspects.ranked` marked by their number
  bool labels_thinned = false;        ///< only some corners are lettered
};

FoundDrawn draw_found_plan(drawing::Page& page, const drawing::Box& box, const job::Job& job,
                           const check::Findings& findings, const FoundView& found,
                           const Wording& wording);

/// The verdict in a word or two.
std::string verdict_words(placement::Verdict verdict, const Wording& wording);

}  // namespace stakewright::forms
