#include "scale.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace stakewright::forms {
namespace {

using base::Length;
using base::Point;
using drawing::Box;

constexpr double kFoot_m = 0.3048;
constexpr double kInch_m = 0.0254;

// The scales of an architect's rule: 3, 1-1/2, 1, 3/4, 1/2, 3/8, 1/4, 3/16, 1/8, 3/32 and 1/16 in
// of paper to the foot.
constexpr std::array<double, 11> kToTheFoot{4.0,  8.0,  12.0, 16.0,  24.0, 32.0,
                                            48.0, 64.0, 96.0, 128.0, 192.0};

// Steps within each power of ten, metric scales and feet to the inch alike.
constexpr std::array<double, 9> kSteps{1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 7.5};

/// The first step times a power of ten that is not below `least`, from `first` up.
double next_step(double least, double first) {
  for (double power = first;; power *= 10.0)
    for (const double step : kSteps)
      if (power * step >= least) return power * step;
}

/// Middle and size of what points cover on the ground.
struct Extent {
  Point middle;
  double wide_m = 0.0;
  double deep_m = 0.0;
};

Extent extent_of(const std::vector<Point>& points) {
  const auto [left, right] = std::minmax_element(points.begin(), points.end(),
                                                 [](Point a, Point b) { return a.x_m < b.x_m; });
  const auto [back, front] = std::minmax_element(points.begin(), points.end(),
                                                 [](Point a, Point b) { return a.y_m < b.y_m; });
  return {{0.5 * (left->x_m + right->x_m), 0.5 * (back->y_m + front->y_m)},
          right->x_m - left->x_m,
          front->y_m - back->y_m};
}

drawing::At middle_of(const Box& box) {
  return {box.x_pt + box.width_pt / 2.0, box.y_pt + box.height_pt / 2.0};
}

/// Room for labels along each edge of the plan.
constexpr double kEdge_pt = 24.0;

/// The stakes are not drawn smaller than this, for the sake of what lies round them.
constexpr double kMostReduction = 1.6;

/// Corner radius on paper below which the labels of so many stakes crowd each other.
double least_radius_pt(int sides) {
  constexpr double kFewSides_pt = 55.0;
  constexpr double kPerSide_pt = 2.6;  // times two pi: 16 pt from label to label
  return std::max(kFewSides_pt, kPerSide_pt * sides);
}

std::vector<Point> own_points(const layout::Plan& plan, const results::LayoutResult& layout,
                              bool with_strings) {
  auto points = layout::corners_of(plan.polygon, plan);
  for (const layout::LineFigures& line : layout.lines)
    points.insert(points.end(), line.corners.begin(), line.corners.end());
  if (with_strings)
    for (const layout::String& string : layout.strings)
      points.insert(points.end(), {string.nail_before, string.nail_after});
  return points;
}

}  // namespace

Scale scale_for(double size_m, double room_pt, base::Units units) {
  const double least = size_m * drawing::kPointsPerMeter / room_pt;
  if (units != base::Units::feet_inches) return {next_step(least, 1.0)};
  const auto* to_the_foot = std::find_if(kToTheFoot.begin(), kToTheFoot.end(),
                                         [least](double scale) { return scale >= least; });
  if (to_the_foot != kToTheFoot.end()) return {*to_the_foot};
  return {12.0 * next_step(least / 12.0, 10.0)};
}

base::Fact words_of(const Scale& scale, base::Units units) {
  constexpr int kAsNeeded = -1;
  const base::Number denominator{scale.denominator, kAsNeeded};
  if (units != base::Units::feet_inches) return {"plan.scale", {{"denominator", denominator}}};
  const double ground_m =
      scale.denominator <= kToTheFoot.back() ? kFoot_m : kInch_m * scale.denominator;
  return {"plan.scale_by_rule",
          {{"paper", Length{ground_m / scale.denominator, base::Step::fine}},
           {"ground", Length{ground_m}},
           {"denominator", denominator}}};
}

double bar_length_m(const Scale& scale, double room_pt, base::Units units) {
  constexpr std::array<double, 3> kRound{1.0, 2.0, 5.0};
  const double unit_m = units == base::Units::feet_inches ? kFoot_m : 0.1;
  const double most_m = room_pt / scale.points_per_meter();
  double best = units == base::Units::feet_inches ? kInch_m : 0.001;
  for (double power = 1.0; power * unit_m <= most_m; power *= 10.0)
    for (const double step : kRound)
      if (power * step * unit_m <= most_m) best = power * step * unit_m;
  return best;
}

PlanView view_of(const std::vector<Point>& points, const Box& box, double edge_pt,
                 base::Units units) {
  const Extent extent = extent_of(points);
  const double room_x = box.width_pt - 2.0 * edge_pt;
  const double room_y = box.height_pt - 2.0 * edge_pt;
  return {scale_for(std::max(extent.wide_m, extent.deep_m * room_x / room_y), room_x, units),
          extent.middle, middle_of(box)};
}

PlanView thumbnail(const std::vector<Point>& points, const Box& box, double edge_pt) {
  const Extent extent = extent_of(points);
  const double points_per_meter = std::min((box.width_pt - 2.0 * edge_pt) / extent.wide_m,
                                           (box.height_pt - 2.0 * edge_pt) / extent.deep_m);
  return {{drawing::kPointsPerMeter / points_per_meter}, extent.middle, middle_of(box)};
}

PlanView view_of_plan(const layout::Plan& plan, const results::LayoutResult& layout,
                      bool with_strings, const Box& box, base::Units units) {
  const auto own = own_points(plan, layout, with_strings);
  auto with_pins = own;
  for (const layout::Pin& pin : plan.pins) with_pins.push_back(pin.at);
  auto with_all = with_pins;
  for (const layout::KeepClear& area : plan.keep_clear)
    with_all.insert(with_all.end(), area.outline.begin(), area.outline.end());
  PlanView closest = view_of(own, box, kEdge_pt, units);
  for (const auto* points : {&with_all, &with_pins}) {
    PlanView view = view_of(*points, box, kEdge_pt, units);
    const double radius_pt = view.scale.points_per_meter() * plan.polygon.corner_radius_m;
    if (view.scale.denominator <= kMostReduction * closest.scale.denominator &&
        radius_pt >= least_radius_pt(plan.polygon.sides))
      return view;
  }
  return closest;
}

}  // namespace stakewright::forms
