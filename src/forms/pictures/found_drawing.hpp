// The corners as found over the plan, displacements enlarged, with what is suspected.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "scale.hpp"
#include "stakewright/check/check.hpp"
#include "stakewright/drawing/page.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/wording/voice.hpp"

namespace stakewright::forms {

using wording::Voice;

/// A corner on the page, or a corner whose place the readings do not fix.
struct FoundCorner {
  base::Point planned;
  /// From its planned to its found place, in the plan's frame, not enlarged; empty: not fixed.
  std::optional<base::Point> off;
  placement::Verdict verdict = placement::Verdict::undecided;
  placement::Ellipse ellipse;  ///< its bearing in the plan's frame
};

struct FoundView {
  PlanView view;
  double factor = 1.0;  ///< by which displacements, ellipses and tolerance are enlarged
  std::vector<FoundCorner> corners;
  bool any_found = false;

  [[nodiscard]] double enlarged_pt(double length_m) const {
    return factor * length_m * view.scale.points_per_meter();
  }
  [[nodiscard]] drawing::At planned_at(const FoundCorner& corner) const {
    return view.at(corner.planned);
  }
  [[nodiscard]] drawing::At found_at(const FoundCorner& corner) const {
    return view.at(corner.planned + factor * *corner.off);
  }
};

/// Enlarged as far as neighboring corners stay apart; a round factor, 1 at the least.
FoundView found_view(const job::Job& job, const check::Findings& findings, const drawing::Box& box,
                     base::Units units);

/// What a drawing shows, for the key beside it.
struct FoundDrawn {
  bool moves = false;
  bool hatched = false;   ///< a tape under suspicion
  bool left_out = false;  ///< a tape left out, and not under suspicion
  bool undecided = false;
  bool out = false;
  bool not_fixed = false;
  bool tolerance = false;
  std::vector<std::size_t> numbered;  ///< entries of `suspects.ranked` marked by their number
  bool labels_thinned = false;        ///< only some corners are lettered
};

FoundDrawn draw_found_plan(drawing::Page& page, const drawing::Box& box, const job::Job& job,
                           const check::Findings& findings, const FoundView& found,
                           const Voice& voice);

/// The verdict in a word or two.
base::Fact verdict_word(placement::Verdict verdict);

// How each thing is marked, on the drawing and in its key alike.

inline constexpr double kFoundReach_pt = 6.0;
/// Strokes across a suspect tape reach so far to either side of it.
inline constexpr double kHatchReach_pt = 3.0;

drawing::Stroke planned_stroke();
drawing::Stroke found_stroke();
drawing::Stroke tolerance_stroke();
drawing::Stroke ellipse_stroke();
drawing::Stroke left_out_stroke();

/// Points round an ellipse, its long axis along a bearing clockwise from up the page.
std::vector<drawing::At> ellipse_points(drawing::At center, double major_pt, double minor_pt,
                                        double bearing_rad);

/// A small cross where a stake is wanted.
void draw_wanted(drawing::Page& page, drawing::At at);

/// In: a black disc.  Out: a black square in a white ring.  Cannot tell: a white disc.
void draw_found(drawing::Page& page, drawing::At at, placement::Verdict verdict);

/// An open circle of dashes: the readings do not fix this corner.
void draw_not_fixed(drawing::Page& page, drawing::At at);

/// A heavy arrow; a heavy line where it is too short for a head.
void draw_move(drawing::Page& page, drawing::At from, drawing::At to);

/// A line with short strokes across it, as a suspect tape is marked.
void draw_hatched(drawing::Page& page, drawing::At from, drawing::At to);

}  // namespace stakewright::forms
