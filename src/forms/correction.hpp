// The parts of the correction sheet.
#pragma once

#include <string>
#include <vector>

#include "running_sheets.hpp"
#include "stakewright/check/check.hpp"
#include "stakewright/forms/correction_sheet.hpp"

namespace stakewright::forms {

struct CorrectionInput {
  const job::Job& job;
  const check::Findings& findings;
  const Wording& wording;
  const FormChoices& choices;

  [[nodiscard]] const std::string& label(std::size_t point) const {
    return findings.network.points[point].label;
  }
  [[nodiscard]] std::string length_text(double length_m) const {
    return base::text_from_length(length_m, choices.units);
  }
};

/// One block for each move, in the order in which they are made.
void add_moves(RunningSheets& sheets, const CorrectionInput& input);

/// A pull that the readings so far ask for.
struct AskedPull {
  std::string from;
  std::string to;
  bool another_tape = false;
};

/// Tapes that would fix loose corners, then those that tell explanations apart; each pair once.
std::vector<AskedPull> asked_pulls(const check::Findings& findings);

/// Blanks for those tapes.
void add_asked_pulls(RunningSheets& sheets, const CorrectionInput& input);

/// Draws a move: the plan small, the two tapes, the arrow enlarged.  Returns by how much.
double draw_move(drawing::Page& page, const drawing::Box& box, const CorrectionInput& input,
                 const placement::Move& move);

}  // namespace stakewright::forms
