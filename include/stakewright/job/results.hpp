// Results as files: one JSON object (meters and radians; keys in docs/results.md),
// points as CSV, drawings as DXF.
#pragma once

#include <optional>
#include <string>

#include "stakewright/check/check.hpp"
#include "stakewright/job/carry_result.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/layout/radial.hpp"
#include "stakewright/layout/surroundings.hpp"
#include "stakewright/layout/swings.hpp"
#include "stakewright/readings/setting_out.hpp"

namespace stakewright::job {

/// The tape that a layout is set out with.
struct WithTape {
  readings::Instrument tape;
  readings::Held held;
  std::string words;  ///< `blue tape, at 35F and pulled 20lbf`, as it was asked for
};

/// Everything `stakewright layout` works out.
struct LayoutResult {
  std::vector<layout::Stake> stakes;  ///< corners, then the center pin
  std::vector<layout::Tape> tapes;
  layout::StakingOrder order;
  layout::Radial radial;
  /// Those of `[lines]`, and the roof's edge when the job has a roof: the outer face of its fascia.
  std::vector<layout::LineFigures> lines;
  std::vector<layout::String> strings;
  std::vector<layout::Clearance> clearances;  ///< of all these lines
  std::vector<layout::PinWithin> pins_within;
  std::optional<layout::PourVolumes> pour;  ///< of a job with [pour]
  std::optional<WithTape> with{};           ///< empty: true lengths only
};

/// The tape that readings use when they name none: the job's own of that name before the built-in.
readings::Instrument default_tape(const Job& job);

/// What a tape plan is asked for unless somebody asks for something else: a slip of 1 in or 25 mm,
/// a shift of twice the corner tolerance, the default tape.
suspects::TapePlanRequest usual_request(const Job& job);

/// Works out the layout of a job with its default tape.  The order's remarks go on with those of
/// the strings, then of pins in the way and of outlines that are crossed.
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
std::string carry_json(const Job& job, const CarryResult& result);

/// For a command that wrote `file` and has no figures of its own to tell.
std::string written_json(const std::string& command, const std::string& title,
                         const std::string& file);

/// Points as CSV (RFC 4180): label,right,forward,height,note.  Corners, center pin, known points,
/// corners of the lines, nails of the strings.  Plain decimal numbers in feet, mm or m; each note
/// ends with which.  The height is empty where it is not known.
std::string points_csv(const Job& job, const LayoutResult& result, base::Units units);

/// The same of a check: each corner and the center pin as planned and, where its place is known,
/// as found (`A found`), laid on the plan as the verdicts are.
std::string found_points_csv(const Job& job, const check::Findings& findings, base::Units units);

/// A readings file (CSV) with the pulls of a tape plan in walking order and nothing read yet.  It
/// has no planned lengths: who knows them reads them.
std::string blank_readings_csv(const suspects::TapePlan& plan);

/// The same of the pulls that a check asks for next: first those that would fix a loose corner.
std::string blank_readings_csv(const check::Findings& findings);

/// The plan as a drawing (DXF of the year 2000): stakes and pins as points with their names, the
/// plan line, each line, the strings and the outlines, each on a layer of its name.  Drawn in
/// inches for feet-inches, else in mm or m.  The same job gives the same bytes.
std::string layout_dxf(const Job& job, const LayoutResult& result, base::Units units);

/// The same of a check: stakes, pins and plan line as planned, and the places found.
std::string found_dxf(const Job& job, const check::Findings& findings, base::Units units);

}  // namespace stakewright::job
