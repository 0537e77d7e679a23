// Where planned and found corners lie on the page, displacements enlarged.
#pragma once

#include <optional>
#include <vector>

#include "plan_view.hpp"
#include "stakewright/check/check.hpp"
#include "stakewright/job/job.hpp"

namespace stakewright::forms {

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

}  // namespace stakewright::forms
