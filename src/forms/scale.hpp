// From the ground to the paper: drawing scales that a rule or a tape can read back, and where a
// point of the ground lies on the page.
#pragma once

#include <vector>

#include "stakewright/base/fact.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/base/point.hpp"
#include "stakewright/drawing/page.hpp"
#include "stakewright/layout/plan.hpp"
#include "stakewright/results/layout.hpp"

namespace stakewright::forms {

struct Scale {
  double denominator = 50.0;  ///< 1:50

  [[nodiscard]] double points_per_meter() const { return drawing::kPointsPerMeter / denominator; }
};

/// The largest usual scale at which `size_m` on the ground takes no more than `room_pt` on paper.
Scale scale_for(double size_m, double room_pt, base::Units units);

/// `Scale 1:50`, or so many inches of paper to the foot.
base::Fact words_of(const Scale& scale, base::Units units);

/// A round length for a scale bar of at most `room_pt`, in meters.
double bar_length_m(const Scale& scale, double room_pt, base::Units units);

struct PlanView {
  Scale scale;
  base::Point middle;  ///< ground point in the middle of the drawing
  drawing::At center;  ///< its place on the page

  [[nodiscard]] drawing::At at(base::Point point) const {
    const double k = scale.points_per_meter();
    return {center.x_pt + k * (point.x_m - middle.x_m), center.y_pt - k * (point.y_m - middle.y_m)};
  }
};

/// The points in the middle of the box, less an edge, to the largest usual scale.
PlanView view_of(const std::vector<base::Point>& points, const drawing::Box& box, double edge_pt,
                 base::Units units);

/// The same as large as the box allows, to any scale.
PlanView thumbnail(const std::vector<base::Point>& points, const drawing::Box& box, double edge_pt);

/// The view that shows stakes, lines and, when `with_strings`, strings in the box, and pins and
/// outlines too if that leaves the stakes legible.
PlanView view_of_plan(const layout::Plan& plan, const results::LayoutResult& layout,
                      bool with_strings, const drawing::Box& box, base::Units units);

}  // namespace stakewright::forms
