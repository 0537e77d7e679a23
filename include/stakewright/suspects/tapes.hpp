// Which tapes to pull: the next one when it is unclear what is wrong, and a plan
// beforehand.
//
// Units: meters.  Formulas and sources: docs/methods/suspects.md, docs/methods/tape-plan.md.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "stakewright/adjustment/network.hpp"
#include "stakewright/base/tolerance.hpp"
#include "stakewright/layout/plan.hpp"
#include "stakewright/readings/reading.hpp"
#include "stakewright/suspects/suspects.hpp"

namespace stakewright::suspects {

/// A pull that is worth making, and why.
struct NextTape {
  std::size_t from = 0;
  std::size_t to = 0;
  bool repeat = false;             ///< the pair has been read before
  bool another_tape = false;       ///< to be pulled with another tape than the suspected one
  double settles = 0.0;            ///< expected drop of uncertainty about the cause, in bits
  double pulls_until_clear = 0.0;  ///< pulls like these expected until one explanation has the
                                   ///< setting's confidence; the same for all that are listed
  /// The two of the ranked explanations that it tells apart best.
  std::size_t tells = 0;
  std::size_t tells_from = 0;
};

/// The pulls that are expected to settle most, best first, at most `most`.
///
/// Explanations that are a listed one with more added count as that one.  Empty when one
/// explanation has the setting's confidence among those listed, when none is listed, and when no
/// pull would tell them apart.
std::vector<NextTape> next_tapes(const adjustment::Network& network, const Suspects& suspects,
                                 const Setting& setting, std::size_t most = 3);

/// What a tape plan is to catch, and with what.
struct TapePlanRequest {
  readings::Instrument instrument;  ///< all pulls are made with it
  base::Tolerance tolerance;
  double slip_m = 0.025;  ///< a slip of this size in any one reading is to be caught and named
  double shift_m =
      0.0;  ///< a corner this far off is to be called out; 0: twice the corner tolerance
  std::size_t at_most = 0;  ///< pulls; 0: as many as it takes
};

/// One pull of a plan.  A pair that is pulled twice stands in the plan twice.
struct PlannedPull {
  std::string from;  ///< where the tape's zero is held
  std::string to;
  double length_m = 0.0;
  double smallest_catch_m = 0.0;  ///< smallest slip in it that is caught (minimal detectable bias)
  double smallest_named_m =
      0.0;  ///< smallest slip in it that is caught and not blamed on another pull
};

struct PlannedCorner {
  std::string label;
  double smallest_shift_m = 0.0;  ///< smallest shift in its worst direction that is called out
};

struct TapePlan {
  std::vector<PlannedPull> pulls;      ///< grouped by where the tape is held, in walking order
  std::vector<PlannedCorner> corners;  ///< in label order; infinity where nothing shows
  bool reached = false;            ///< every pull and every corner is at or under what was asked
  double walk_m = 0.0;             ///< how far the two ends of the tape are carried, together
  std::vector<base::Fact> misses;  ///< what was asked and is not reached
};

/// The shortest set of pulls between corners and to the center pin that reaches the request, each
/// figure with power 0.80 (readings: alpha 0.001, shared above 40 readings; corners: the
/// tolerance's confidence).  No pair is pulled more than twice.  Where no such set reaches the
/// request, or `at_most` is too few: the best set found, and what it misses.
///
/// A search, not a proof: no single pull can be left out of the set.
/// Throws InputError when slip or shift is not above 0, or the shift not above the tolerance.
TapePlan tape_plan(const layout::Plan& plan, const TapePlanRequest& request);

/// The same figures for pulls somebody else chose, in the order given.
/// Throws InputError for a label that is not a corner or the center pin, and for from = to.
TapePlan judged_pulls(const layout::Plan& plan, const TapePlanRequest& request,
                      const std::vector<layout::Tape>& pulls);

}  // namespace stakewright::suspects
