// What every drawing by itself has: paper, a head, a foot with what it is not to be used for.
#pragma once

#include <string>

#include "stakewright/drawing/page.hpp"
#include "stakewright/forms/pictures.hpp"

namespace stakewright::forms {

enum class Lie { upright, sideways };

/// What a head says.
struct PictureHead {
  std::string tab;   ///< what is drawn, white on black
  std::string note;  ///< a few words on the right
};

struct PictureSheet {
  drawing::Page page;
  drawing::Box body;  ///< what head and foot leave
};

/// Paper with head and foot; `foot` is broken into lines.
PictureSheet picture_sheet(const job::Job& job, const PictureHead& head, const std::string& foot,
                           Lie lie, const Wording& wording, const PictureChoices& choices);

/// The units by name, as a head says them.
std::string units_words(base::Units units, const Wording& wording);

/// A black tab with white words, as high as a head; returns its right edge.
double add_tab(drawing::Page& page, drawing::At corner, const std::string& words);

}  // namespace stakewright::forms
