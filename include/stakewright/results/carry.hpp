// The roof of a job, and the ways to go on with its corners.
//
// Units: meters and radians.  docs/methods/roof.md.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/roof/cut_sheet.hpp"
#include "stakewright/roof/sensitivity.hpp"
#include "stakewright/roof/what_if.hpp"

namespace stakewright::results {

/// The roof over the corners once one way has been taken.
struct RoofCase {
  roof::Way way = roof::Way::leave;
  roof::FoundCorners corners;  ///< as the way leaves them
  roof::Carry carry;           ///< over these corners
  roof::Outcome outcome;
};

/// What a shift of one corner does.
struct Shift {
  std::string corner;
  double shift_m = 0.0;
  std::vector<roof::Answer> answers;  ///< for each meter
};

/// What to cut and what to order.
struct CutSheet {
  std::vector<roof::CutList> lists;
  double sheathing_m2 = 0.0;
};

/// What is asked of a carry besides the roof itself.
struct CarryRequest {
  roof::Way way = roof::Way::leave;  ///< which way is shown in full
  std::optional<double> shift_m;     ///< works out what this shift of a corner does
  bool cut_sheet = false;
};

/// Everything `stakewright carry` works out.
struct CarryResult {
  roof::Carry planned;
  std::vector<RoofCase> cases;         ///< by the work they take; empty without every corner found
  std::size_t shown = 0;               ///< of the cases
  std::size_t enough = 0;              ///< of the cases: the least work that serves
  bool contradiction = false;          ///< of the readings: nobody should cut by what was found
  std::vector<placement::Move> moves;  ///< what is done in the case of the moves
  std::vector<roof::PostOff> off;      ///< and, by corner, in the case of the play
  roof::CornerNeed need;
  std::optional<Shift> shift;
  std::optional<CutSheet> cut_sheet;
  std::vector<base::Fact> remarks;

  /// The roof shown in full: as planned without cases.
  [[nodiscard]] const roof::Carry& carry() const {
    return cases.empty() ? planned : cases[shown].carry;
  }
  /// The case to cut by: none where the plan is all there is, or the readings contradict each
  /// other.
  [[nodiscard]] const RoofCase* to_cut_by() const {
    return cases.empty() || contradiction ? nullptr : &cases[shown];
  }
};

/// The roof as planned; the request's way needs corners as found and is left aside.
CarryResult carry_of(const job::Job& job, const CarryRequest& request);

/// The roof as planned and over the corners that were found.
/// Throws InputError when the play of the post bases is to be used and the job gives none.
CarryResult carry_of(const job::Job& job, const check::Findings& findings,
                     const CarryRequest& request);

}  // namespace stakewright::results
