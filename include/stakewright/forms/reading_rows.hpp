// Which tapes the reading sheet asks for, and in which order they are walked.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "stakewright/base/fact.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/layout/plan.hpp"

namespace stakewright::forms {

/// Every point of a plan that a tape can be held at, by its label: corners, center pin, site pins.
std::map<std::string, base::Point> points_by_label(const layout::Plan& plan);

/// Up to here every side, diagonal and corner radius is on the sheet: 78 rows.
inline constexpr int kMostSidesTapedInFull = 12;

/// Diagonals through the middle that the standing set of a larger polygon has.
inline constexpr std::size_t kLongDiagonals = 6;

/// Tapes to pull when nobody has planned any.
///
/// Up to `kMostSidesTapedInFull` sides: all of them.  Above: every side, every
/// diagonal of skip 2, every corner radius, and `kLongDiagonals` of the longest
/// spread evenly round; 3n + 6 tapes for 2n - 1 unknowns, so that any one can
/// be misread and the rest still fix the shape (docs/methods/field-form.md).
std::vector<layout::Tape> standing_tapes(const layout::Plan& plan);

/// Which tapes the reading sheet asks for.
enum class TapeSet {
  plan,  ///< the shortest set that catches a slip and a stake set wrong (`suspects::tape_plan`)
  all    ///< the standing set
};

/// The plan up to `kMostSidesTapedInFull` sides, the standing set above.
TapeSet usual_tapes(const layout::Plan& plan);

/// `plan` or `all`; throws InputError for anything else.
TapeSet tape_set_from_text(std::string_view text);

/// Tapes in the order they are walked, and what a tape plan does not reach.
struct ReadingRows {
  std::vector<layout::Tape> tapes;
  std::vector<base::Fact> misses;
};

ReadingRows reading_rows(const job::Job& job, TapeSet set);

/// Tapes whose zero is held at one point, in walking order: `from` is the hold in all of them.
struct Station {
  std::string hold;
  std::vector<layout::Tape> tapes;
};

/// Sorts tapes by where their zero is held, each in exactly one station.
///
/// The next hold is the point with most tapes left, the nearest when several
/// have as many; the reading end goes round the corners in the direction that
/// starts nearer to where it stands, and takes in other points on the way.
/// Points that the plan does not have are a bug of the caller's.
std::vector<Station> by_station(const layout::Plan& plan, const std::vector<layout::Tape>& tapes);

/// The standing set in walking order, holds first to last.
std::vector<layout::Tape> walked(const layout::Plan& plan, const std::vector<layout::Tape>& tapes);

/// The tapes as they come, those next to each other with one hold together.
std::vector<Station> grouped(const std::vector<layout::Tape>& tapes);

}  // namespace stakewright::forms
