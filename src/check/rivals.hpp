// Several sets of misread readings that explain a contradiction alike: what holds whichever of
// them is true.
#pragma once

#include <vector>

#include "places.hpp"

namespace stakewright::check {

struct Rivals {
  /// The likeliest rival's places; the corners' chances and verdicts are those over all rivals.
  Places leading;
  bool decided = false;  ///< every corner is in or out, whichever rival is true
  std::vector<bool>
      alike;  ///< per corner: all rivals find it off in the same way, within tolerance
};

/// A corner's chance is the mean over the rivals, by their chances.  Where the rivals listed do
/// not together reach the job's confidence, or one leaves a corner loose, the corner is undecided
/// and its chance 0.
Rivals weighed_rivals(const Input& input, const Findings& findings);

}  // namespace stakewright::check
