// What every drawing by itself has: paper, a head, a foot with what it is not to be used for.
#pragma once

#include "sheet.hpp"
#include "stakewright/forms/pictures.hpp"

namespace stakewright::forms {

enum class Lie { upright, sideways };

/// What a head says.
struct PictureHead {
  base::Value tab;   ///< what is drawn, white on black
  base::Value note;  ///< a few words on the right
};

struct PictureSheet {
  drawing::Page page;
  drawing::Box body;  ///< what head and foot leave
};

/// Paper with head and foot; `foot` is broken into lines.
PictureSheet picture_sheet(const job::Job& job, const PictureHead& head, const Fact& foot, Lie lie,
                           const Voice& voice, Paper paper);

}  // namespace stakewright::forms
