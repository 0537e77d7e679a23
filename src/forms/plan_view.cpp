#include "plan_view.hpp"

#include <algorithm>

namespace stakewright::forms {
namespace {

using base::Point;

/// Room for labels along each edge.
constexpr double kEdge_pt = 24.0;

/// The stakes are not drawn smaller than this, for the sake of what lies round them.
constexpr double kMostReduction = 1.6;

/// Corner radius on paper below which the labels of so many stakes crowd each other.
double least_radius_pt(int sides) {
  constexpr double kFewSides_pt = 55.0;
  constexpr double kPerSide_pt = 2.6;  // times two pi: 16 pt from label to label
  return std::max(kFewSides_pt, kPerSide_pt * sides);
}

PlanView view_of(const std::vector<Point>& points, const drawing::Box& box, base::Units units) {
  const auto [left, right] = std::minmax_element(points.begin(), points.end(),
                                                 [](Point a, Point b) { return a.x_m < b.x_m; });
  const auto [back, front] = std::minmax_element(points.begin(), points.end(),
                                                 [](Point a, Point b) { return a.y_m < b.y_m; });
  const double wide_m = right->x_m - left->x_m;
  const double long_m = front->y_m - back->y_m;
  const double room_x = box.width_pt - 2.0 * kEdge_pt;
  const double room_y = box.height_pt - 2.0 * kEdge_pt;
  return {scale_for(std::max(wide_m, long_m * room_x / room_y), room_x, units),
          {0.5 * (left->x_m + right->x_m), 0.5 * (back->y_m + front->y_m)},
          {box.x_pt + box.width_pt / 2.0, box.y_pt + box.height_pt / 2.0}};
}

std::vector<Point> own_points(const layout::Plan& plan, const results::LayoutResult& layout,
                              bool with_strings) {
  auto points = layout::corners_of(plan.polygon, plan);
  for (const layout::LineFigures& line : layout.lines)
    points.insert(points.end(), line.corners.begin(), line.corners.end());
  if (with_strings) {
    for (const layout::String& string : layout.strings) {
      points.push_back(string.nail_before);
      points.push_back(string.nail_after);
    }
  }
  return points;
}

}  // namespace

PlanView view_of(const layout::Plan& plan, const results::LayoutResult& layout, bool with_strings,
                 const drawing::Box& box, base::Units units) {
  const auto own = own_points(plan, layout, with_strings);
  auto with_pins = own;
  for (const layout::Pin& pin : plan.pins) with_pins.push_back(pin.at);
  auto with_all = with_pins;
  for (const layout::KeepClear& area : plan.keep_clear)
    with_all.insert(with_all.end(), area.outline.begin(), area.outline.end());
  PlanView closest = view_of(own, box, units);
  for (const auto* points : {&with_all, &with_pins}) {
    PlanView view = view_of(*points, box, units);
    const double radius_pt = view.scale.points_per_meter() * plan.polygon.corner_radius_m;
    if (view.scale.denominator <= kMostReduction * closest.scale.denominator &&
        radius_pt >= least_radius_pt(plan.polygon.sides))
      return view;
  }
  return closest;
}

}  // namespace stakewright::forms
