#include "found_view.hpp"

#include <algorithm>
#include <cmath>

namespace stakewright::forms {
namespace {

using base::Point;
using drawing::Box;

/// Room for labels round all that is drawn.
constexpr double kEdge_pt = 30.0;
/// What is enlarged reaches no further than this from its corner, nor than a share of a side.
constexpr double kFarthest_pt = 46.0;
constexpr double kShareOfSide = 0.42;
/// An ellipse past so many corner radii says only that nothing is known.
constexpr double kLargestEllipse = 1.0;

FoundCorner corner_of(const placement::Placement& placement, const placement::Survey& survey,
                      Point center, std::size_t i) {
  const placement::CornerResult& result = placement.corners[i];
  FoundCorner corner;
  corner.planned = survey.planned[i];
  corner.verdict = result.verdict;
  corner.ellipse = result.ellipse;
  corner.ellipse.bearing_rad -= placement.rigid.turn_rad;
  const Point out = corner.planned - center;
  const double radius_m = base::norm_m(out);
  if (!survey.measured[i] || result.ellipse.major_m > kLargestEllipse * radius_m) return corner;
  const Point outward = (1.0 / radius_m) * out;
  corner.off = result.outward_m * outward + result.sideways_m * base::clockwise(outward);
  return corner;
}

std::vector<FoundCorner> corners_of(const job::Job& job, const check::Findings& findings) {
  std::vector<FoundCorner> corners;
  const std::vector<Point> planned = layout::corners_of(job.plan.polygon, job.plan);
  const bool placed = findings.placement && findings.survey;
  for (std::size_t i = 0; i < planned.size(); ++i) {
    if (placed) {
      corners.push_back(corner_of(*findings.placement, *findings.survey, job.plan.center, i));
    } else {
      corners.push_back({planned[i], {}, placement::Verdict::undecided, {}});
    }
  }
  return corners;
}

/// The largest of 1, 2, 5, 10, 20 ... that is not above `most`; 1 at the least.
double round_factor(double most) {
  constexpr double kMost = 1000.0;
  double factor = 1.0;
  for (double power = 1.0; power <= kMost; power *= 10.0)
    for (const double step : {1.0, 2.0, 5.0})
      if (power * step <= most) factor = power * step;
  return factor;
}

double farthest_m(const std::vector<FoundCorner>& corners) {
  double farthest = 0.0;
  for (const FoundCorner& corner : corners)
    if (corner.off)
      farthest = std::max(farthest, base::norm_m(*corner.off) + corner.ellipse.major_m);
  return farthest;
}

/// The box that planned and found corners lie in.
Box extent(const FoundView& found) {
  Box box{1.0, 1.0, -1.0, -1.0};
  const auto take = [&box](drawing::At at) {
    if (box.width_pt < 0.0) box = {at.x_pt, at.y_pt, 0.0, 0.0};
    const double right = std::max(box.right_pt(), at.x_pt);
    const double bottom = std::max(box.bottom_pt(), at.y_pt);
    box.x_pt = std::min(box.x_pt, at.x_pt);
    box.y_pt = std::min(box.y_pt, at.y_pt);
    box.width_pt = right - box.x_pt;
    box.height_pt = bottom - box.y_pt;
  };
  for (const FoundCorner& corner : found.corners) {
    take(found.planned_at(corner));
    if (corner.off) take(found.found_at(corner));
  }
  return box;
}

/// Sets scale and factor for a drawing that reaches `reach_m` from the center, and puts it in the
/// middle of the box.  Returns whether it lies within.
bool lay_out(FoundView& found, const job::Job& job, double reach_m, const Box& box,
             base::Units units) {
  const double room_pt = std::min(box.width_pt, box.height_pt) - 2.0 * kEdge_pt;
  const drawing::At middle{box.x_pt + box.width_pt / 2.0, box.y_pt + box.height_pt / 2.0};
  found.view = {scale_for(2.0 * reach_m, room_pt, units), job.plan.center, middle};
  const double points_per_meter = found.view.scale.points_per_meter();
  const double allowed_pt =
      std::min(kFarthest_pt, kShareOfSide * layout::side_m(job.plan.polygon) * points_per_meter);
  const double shown_pt =
      std::max(farthest_m(found.corners), job.tolerance.corner_m) * points_per_meter;
  found.factor = round_factor(allowed_pt / shown_pt);
  const Box drawn = extent(found);
  found.view.center.x_pt += middle.x_pt - (drawn.x_pt + drawn.width_pt / 2.0);
  found.view.center.y_pt += middle.y_pt - (drawn.y_pt + drawn.height_pt / 2.0);
  return drawn.width_pt <= box.width_pt - 2.0 * kEdge_pt &&
         drawn.height_pt <= box.height_pt - 2.0 * kEdge_pt;
}

}  // namespace

FoundView found_view(const job::Job& job, const check::Findings& findings, const Box& box,
                     base::Units units) {
  constexpr double kStep = 1.1;
  FoundView found;
  found.corners = corners_of(job, findings);
  found.any_found = std::any_of(found.corners.begin(), found.corners.end(),
                                [](const FoundCorner& corner) { return corner.off.has_value(); });
  // At the true distance all of it lies within this, so the loop ends.
  const double most_m = job.plan.polygon.corner_radius_m + farthest_m(found.corners);
  double reach_m = job.plan.polygon.corner_radius_m;
  while (!lay_out(found, job, reach_m, box, units) && reach_m < kStep * most_m * kStep)
    reach_m *= kStep;
  return found;
}

}  // namespace stakewright::forms
