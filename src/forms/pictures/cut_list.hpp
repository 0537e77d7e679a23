// The cuts of a piece in words: how each is set on a framing square and on a saw.
#pragma once

#include <string>
#include <vector>

#include "part_pictures.hpp"
#include "stick_view.hpp"

namespace stakewright::forms {

struct CutWords {
  std::string heading;  ///< "Plumb cut"
  std::string words;    ///< a sentence or two
};

struct CutList {
  std::vector<CutWords> cuts;  ///< in the order of their numbers, from 1
  CutNumbers numbers;
};

/// Cuts of a hip, common or jack.
CutList rafter_cuts(const PartInput& input, const roof::Part& part);

/// Cuts of a fascia board, one or two ways as its ends are alike or not.
CutList fascia_cuts(const PartInput& input, const roof::Part& part);

/// Writes the list into a column; returns where it ends.
double draw_cut_list(drawing::Page& page, const drawing::Box& box, const CutList& list);

}  // namespace stakewright::forms
