#include "stick_shape.hpp"

#include <algorithm>
#include <cmath>

#include "stakewright/base/error.hpp"

namespace stakewright::forms {
namespace {

using roof::CutName;
using roof::PartKind;

/// Keeps what lies on the positive side of a line: a x + b y + c >= 0 (Sutherland and Hodgman,
/// Communications of the ACM 17, 1974, for one edge).
struct HalfPlane {
  double a = 0.0;
  double b = 0.0;
  double c = 0.0;

  [[nodiscard]] double at(StickPoint p) const { return a * p.x_m + b * p.y_m + c; }
};

std::vector<StickPoint> cut_off(const std::vector<StickPoint>& outline, const HalfPlane& keep) {
  std::vector<StickPoint> result;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const StickPoint here = outline[i];
    const StickPoint next = outline[(i + 1) % outline.size()];
    const double at_here = keep.at(here);
    const double at_next = keep.at(next);
    if (at_here >= 0.0) result.push_back(here);
    if ((at_here < 0.0) == (at_next < 0.0)) continue;
    const double share = at_here / (at_here - at_next);
    result.push_back(
        {here.x_m + share * (next.x_m - here.x_m), here.y_m + share * (next.y_m - here.y_m)});
  }
  return result;
}

/// A cheek at an angle in plan to the middle: what the side stands behind it.
double behind_m(double thickness_m, double plan_rad, double slope_rad) {
  return 0.5 * thickness_m / (std::tan(plan_rad) * std::cos(slope_rad));
}

EndSides head_of(const roof::Carry& carry, const roof::Part& part, const StickShape& stick) {
  const auto cheeks = cuts_of(carry, part.name(), CutName::cheek);
  if (cheeks.empty()) return {};
  const double first =
      behind_m(stick.thickness_m, angle_to_cut_rad(*cheeks.front()), stick.slope_rad);
  if (part.kind != PartKind::jack) {
    return {first, behind_m(stick.thickness_m, angle_to_cut_rad(*cheeks.back()), stick.slope_rad)};
  }
  // A jack leans on the hip at its outer side: a left one has the hip on the left of whoever looks
  // out, and its long point on the right.
  return part.at.hand == roof::Hand::left ? EndSides{first, -first} : EndSides{-first, first};
}

void shape_tail(StickShape& stick, const roof::Carry& carry, const roof::Spec& spec,
                const roof::Part& part) {
  const auto tails = cuts_of(carry, part.name(), CutName::tail);
  if (part.kind != PartKind::hip) {
    if (spec.tail == roof::Tail::plumb) stick.tail_lean_m = stick.depth_m * stick.plumb_run();
    return;
  }
  if (tails.empty()) return;
  const double lean_m = stick.depth_m * std::tan(tails.front()->setting.miter_rad);
  stick.tail_lean_m = spec.tail == roof::Tail::plumb ? lean_m : -lean_m;
  const auto behind = [&stick](const roof::Cut& cut) {
    return 0.5 * stick.thickness_m * std::tan(cut.setting.bevel_rad) /
           std::cos(cut.setting.miter_rad);
  };
  stick.tail = {behind(*tails.front()), behind(*tails.back())};
}

}  // namespace

double StickShape::plumb_run() const { return std::tan(slope_rad); }

StickPoint StickShape::heel_point() const {
  return {tail_m - heel_m * std::sin(slope_rad), heel_m * std::cos(slope_rad)};
}

StickPoint StickShape::seat_end() const {
  const StickPoint heel = heel_point();
  return {heel.x_m + notch_m / std::tan(slope_rad), depth_m};
}

double angle_to_cut_rad(const roof::Cut& cut) {
  return cut.fit == roof::Fit::own ? cut.angle.found.value_or(cut.angle.planned)
                                   : cut.angle.planned;
}

std::vector<const roof::Cut*> cuts_of(const roof::Carry& carry, const roof::PartName& part,
                                      CutName name) {
  const bool of_common = part.kind == PartKind::jack && name != CutName::cheek;
  const PartKind kind = of_common ? PartKind::common : part.kind;
  const roof::Place at = of_common ? part.at.whole() : part.at.on(part.at.hand);
  std::vector<const roof::Cut*> cuts;
  for (const roof::Cut& cut : carry.cuts) {
    const bool here = cut.at == at || cut.at.whole() == at;
    if (cut.part == kind && here && cut.name == name) cuts.push_back(&cut);
  }
  return cuts;
}

StickShape stick_shape(const roof::Carry& carry, const roof::Spec& spec, const roof::Part& part) {
  StickShape stick;
  stick.line_m = roof::line_to_cut_m(part);
  stick.tail_m = part.tail_m;
  stick.shortening_m = part.shortening_m;
  stick.overall_m = part.overall_m;
  stick.depth_m = spec.rafter_depth_m;
  stick.thickness_m = part.kind == PartKind::hip ? spec.hip_m : spec.rafter_m;
  const auto plumb = cuts_of(carry, part.name(), CutName::plumb);
  stick.slope_rad = plumb.empty() ? 0.0 : angle_to_cut_rad(*plumb.front());
  stick.heel_m = part.heel_m;
  stick.notch_m = part.notch_m;
  stick.head = head_of(carry, part, stick);
  shape_tail(stick, carry, spec, part);
  return stick;
}

std::vector<StickPoint> side_outline(const StickShape& stick, double head_m, double tail_m,
                                     double from_m, double to_m) {
  const double run = stick.plumb_run();
  const double beyond = stick.depth_m * (1.0 + run) + std::abs(stick.tail_lean_m);
  const double low = std::min(from_m, stick.heel_point().x_m) - beyond;
  const double high = to_m + beyond;
  std::vector<StickPoint> outline{{high, 0.0}, {low, 0.0}, {low, stick.depth_m}};
  if (stick.notch_m > 0.0) {
    outline.push_back({stick.tail_m - stick.depth_m * run, stick.depth_m});
    outline.push_back(stick.heel_point());
    outline.push_back(stick.seat_end());
  }
  outline.push_back({high, stick.depth_m});
  const double lean = stick.tail_lean_m / stick.depth_m;
  for (const HalfPlane& keep : {HalfPlane{1.0, lean, -tail_m}, HalfPlane{-1.0, -run, head_m},
                                HalfPlane{1.0, 0.0, -from_m}, HalfPlane{-1.0, 0.0, to_m}})
    outline = cut_off(outline, keep);
  return outline;
}

}  // namespace stakewright::forms
