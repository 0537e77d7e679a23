// From the ground to the paper.
#pragma once

#include <vector>

#include "scale.hpp"
#include "stakewright/base/point.hpp"
#include "stakewright/drawing/page.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/layout/plan.hpp"
#include "stakewright/results/layout.hpp"

namespace stakewright::forms {

struct PlanView {
  Scale scale;
  base::Point middle;  ///< ground point in the middle of the drawing
  drawing::At center;  ///< its place on the page

  [[nodiscard]] drawing::At at(base::Point point) const {
    const double k = scale.points_per_meter();
    return {center.x_pt + k * (point.x_m - middle.x_m), center.y_pt - k * (point.y_m - middle.y_m)};
  }
};

/// The view that shows stakes, lines and, when `with_strings`, strings in the box, and pins and
/// outlines too if that leaves the stakes legible.
PlanView view_of(const layout::Plan& plan, const results::LayoutResult& layout, bool with_strings,
                 const drawing::Box& box, base::Units units);

}  // namespace stakewright::forms
