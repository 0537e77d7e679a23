// Results as files: one JSON object (metres and radians; keys in docs/results.md),
// points as CSV.
#pragma once

#include <optional>
#include <string>

#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/layout/radial.hpp"
#include "stakewright/layout/surroundings.hpp"
#include "stakewright/layout/swings.hpp"
#include "stakewright/roof/roof.hpp"

namespace stakewright::job {

/// Everything `stakewright layout` works out.
struct LayoutResult {
  std::vector<layout::Stake> stakes;  ///< corners, then the centre pin
  std::vector<layout::Tape> tapes;
  layout::StakingOrder order;
  layout::Radial radial;
  std::vector<layout::LineFigures> lines;
  std::vector<layout::String> strings;
  std::vector<layout::Clearance> clearances;
};

/// Works out the layout of a job with its default tape.  The order's remarks go on with those of
/// the strings.
/// Throws InputError as `layout::staking_order`, `lines` and `clearances`.
LayoutResult layout_of(const Job& job);

/// Version of the program, as every result carries it.
std::string version();

std::string layout_json(const Job& job, const LayoutResult& result);
std::string check_json(const Job& job, const check::Findings& findings);
/// The tape plan of a job.
std::string tapes_json(const Job& job, const suspects::TapePlan& plan);
/// The next tapes after some readings.
std::string next_tapes_json(const Job& job, const check::Findings& findings);
std::string carry_json(const Job& job, const roof::Carry& carry);

/// For a command that wrote `file` and has no figures of its own to tell.
std::string written_json(const std::string& command, const std::string& title,
                         const std::string& file);

/// Points as CSV (RFC 4180): label,right,forward,note.  Corners, centre pin, known points, corners
/// of the lines, nails of the strings.  Plain decimal numbers in feet, mm or m; each note ends with
/// which.
std::string points_csv(const Job& job, const LayoutResult& result, base::Units units);

}  // namespace stakewright::job
