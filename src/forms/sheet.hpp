// What every sheet of the form has: paper, margins, head.
#pragma once

#include <string>
#include <vector>

#include "stakewright/drawing/page.hpp"
#include "stakewright/forms/field_form.hpp"

namespace stakewright::forms {

/// Left free at the top edge, where a clipboard's clip bites.
inline constexpr double kClip_pt = 24.0 * drawing::kPointsPerMillimeter;
/// Left free at the other edges; laser printers need about a third of it.
inline constexpr double kMargin_pt = 14.0 * drawing::kPointsPerMillimeter;

/// The kinds of sheet, in the order of the day.
enum class SheetKind { plan = 1, stake = 2, read = 3, move = 4 };

struct Sheet {
  SheetKind kind = SheetKind::plan;
  drawing::Page page;
};

Sheet blank_sheet(SheetKind kind, Paper paper);

/// What is left below the head.
drawing::Box body(const drawing::Page& page);

/// Puts the head on every sheet, now that it is known how many there are.
void add_heads(std::vector<Sheet>& sheets, const std::string& title, const std::string& mark,
               const std::string& units, const Wording& wording);

/// A caution in a heavy frame at the top of a body; returns the body below it.
drawing::Box under_caution(drawing::Page& page, const drawing::Box& body, const std::string& words);

/// What such a caution takes of the body's height.
double height_under_caution_pt(double width_pt, const std::string& words);

}  // namespace stakewright::forms
