// The three kinds of sheet, each from the job and what was worked out of it.
#pragma once

#include <vector>

#include "sheet.hpp"

namespace stakewright::forms {

/// What all sheets are made from.
struct FormInput {
  const job::Job& job;
  const results::LayoutResult& layout;
  const std::vector<layout::Tape>& tapes;
  const Wording& wording;
  const FormChoices& choices;
};

std::vector<Sheet> plan_sheets(const FormInput& input);
std::vector<Sheet> staking_sheets(const FormInput& input);
std::vector<Sheet> reading_sheets(const FormInput& input);

/// The sheets with their heads, as pages.
std::vector<drawing::Page> finished(std::vector<Sheet> sheets, const job::Job& job,
                                    const Wording& wording, const FormChoices& choices);

/// A name that somebody chose, short enough for the middle of a sentence.
std::string shortened(const std::string& name);

}  // namespace stakewright::forms
