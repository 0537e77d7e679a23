// Results as files: one JSON object (metres and radians; keys in docs/results.md),
// points as CSV.
#pragma once

#include <optional>
#include <string>

#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/layout/surroundings.hpp"
#include "stakewright/layout/swings.hpp"
#include "stakewright/roof/roof.hpp"

namespace stakewright::job {

/// Everything `stakewright layout` works out.
struct LayoutResult {
  std::vector<layout::Stake> stakes;  ///< corners, then the centre pin
  std::vector<layout::Tape> tapes;
  layout::StakingOrder order;
  std::vector<layout::LineFigures> lines;
  std::vector<layout::String> strings;
  std::vector<layout::Clearance> clearances;
};

/// Works out the layout of a job with its default tape.
LayoutResult layout_of(const Job& job);

std::string layout_json(const Job& job, const LayoutResult& result);
std::string check_json(const Job& job, const check::Findings& findings);
std::string carry_json(const Job& job, const roof::Carry& carry);

/// Points as CSV: label,right,forward,note, in the job's units (plain decimal numbers: feet, mm or m).
std::string points_csv(const Job& job, const LayoutResult& result, base::Units units);

}  // namespace stakewright::job
