// The parts of the roof, each on a page: how a carpenter marks and cuts it.
#pragma once

#include "stakewright/forms/pictures.hpp"

namespace stakewright::forms {

/// What every drawing of a part is made from.
struct PartInput {
  const job::Job& job;
  const roof::Carry& carry;  ///< the part and its cuts are of this one
  const roof::Carry& found;  ///< which pieces come off the pattern, and the lengths of the others
  const Wording& wording;
  const PictureChoices& choices;
};

/// A hip, common or jack from its side and from above, with its cuts.  `by_name`: it is drawn as
/// that one piece, else as the pattern of its kind.
Picture rafter_picture(const PartInput& input, const roof::Part& part, bool by_name);

/// The corner of two fascia boards.
Picture fascia_picture(const PartInput& input, const roof::Part& part, bool by_name);

}  // namespace stakewright::forms
