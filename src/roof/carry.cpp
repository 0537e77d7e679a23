#include "stakewright/roof/roof.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

#include "bay.hpp"
#include "judge.hpp"
#include "plate.hpp"
#include "stick.hpp"

namespace stakewright::roof {
namespace {

/// A notch past this share of the depth is a question for the designer.  Common
/// practice, no source.
constexpr double kDeepestNotch = 1.0 / 3.0;

Part merged(const BayPart& planned, const BayPart& found, const Judge& judge, std::size_t corner) {
  Part result = planned.part;
  result.line = judge.figure(planned.line, found.line, corner);
  result.fit = judge.fit(result.line, 1.0);
  if (result.fit == Fit::own) {
    Part own = found.part;
    own.line = result.line;
    own.fit = Fit::own;
    return own;
  }
  if (judge.has_found()) result.from_corner_m = found.part.from_corner_m;
  return result;
}

Cut merged(const BayCut& planned, const BayCut& found, const Judge& judge, std::size_t corner) {
  Cut result = planned.cut;
  result.angle = judge.figure(planned.angle, found.angle, corner);
  result.lever_m = planned.lever_m;
  result.fit = judge.fit(result.angle, planned.lever_m);
  if (result.fit == Fit::own) result.setting = found.cut.setting;
  return result;
}

Sheet merged_sheet(const Roof& roof, const Bay& planned, const Bay& found, const Judge& judge,
                   std::size_t corner) {
  Sheet result;
  const auto figure = [&judge, corner](const Linear& of_plan, const Linear& as_found) {
    return judge.figure(of_plan, as_found, corner);
  };
  result.at = planned.side;
  result.base = figure(planned.exact.eave_line, found.exact.eave_line);
  result.height = figure(planned.exact.sheet_height, found.exact.sheet_height);
  result.left_edge = figure(planned.exact.sheet_edge.left, found.exact.sheet_edge.left);
  result.right_edge = figure(planned.exact.sheet_edge.right, found.exact.sheet_edge.right);
  const double edge_m = planned.exact.sheet_height.value;
  // The worst of all four.
  result.fit =
      std::max({judge.fit(result.base, 1.0), judge.fit(result.height, 1.0),
                judge.fit(result.left_edge, edge_m), judge.fit(result.right_edge, edge_m)});
  finish_sheet(result, roof, result.fit == Fit::own ? found.exact : planned.exact);
  return result;
}

void merge(Carry& carry, const Roof& roof, const Bay& planned, const Bay& found, const Judge& judge,
           std::size_t corner) {
  assert(planned.parts.size() == found.parts.size() && planned.cuts.size() == found.cuts.size());
  for (std::size_t i = 0; i < planned.parts.size(); ++i)
    carry.parts.push_back(merged(planned.parts[i], found.parts[i], judge, corner));
  for (std::size_t i = 0; i < planned.cuts.size(); ++i)
    carry.cuts.push_back(merged(planned.cuts[i], found.cuts[i], judge, corner));
  carry.eaves.push_back({planned.side,
                         judge.figure(planned.exact.overhang, found.exact.overhang, corner),
                         judge.figure(planned.exact.drop, found.exact.drop, corner)});
  carry.sheets.push_back(merged_sheet(roof, planned, found, judge, corner));
}

void remark_on_seats(Carry& carry, const Spec& spec) {
  bool deep = false;
  bool bare = false;
  for (const auto& part : carry.parts) {
    // A pencil line over, so that a seat that takes just a third as planned is not called too deep
    // over corners a little off.
    constexpr double kShade_m = 5e-4;
    deep = deep || part.notch_m > kDeepestNotch * spec.rafter_depth_m + kShade_m;
    bare = bare || (part.kind == PartKind::hip && part.notch_m <= 0.0);
  }
  if (deep) carry.remarks.push_back({"roof.deep_seat"});
  if (bare) carry.remarks.push_back({"roof.short_hips"});
}

void remark_on_lost_jacks(Carry& carry) {
  for (const auto& part : carry.parts)
    if (part.kind == PartKind::jack && line_to_cut_m(part) <= part.shortening_m)
      carry.remarks.push_back({"roof.lost_jack", {{"at", place_of(part.at)}}});
}

/// A post a corner, if the job gives their height.  The post on the highest footing has the
/// planned length; each other one is longer by what its footing is lower.
void add_posts(Carry& carry, const Roof& roof, std::size_t corners,
               const std::optional<Footings>& footings, const Judge& judge) {
  const double planned = roof.spec.post_height_m;
  if (planned <= 0.0) return;
  std::size_t highest = 0;
  if (footings) {
    assert(footings->height_m.size() == corners);
    highest = static_cast<std::size_t>(
        std::max_element(footings->height_m.begin(), footings->height_m.end()) -
        footings->height_m.begin());
  }
  for (std::size_t i = 0; i < corners; ++i) {
    Part post{PartKind::post, Place::at_corner(i)};
    post.line.planned = planned;
    if (footings) {
      const auto& c = footings->covariance;
      post.line =
          judge.figure(planned, planned + footings->height_m[highest] - footings->height_m[i],
                       c(i, i) + c(highest, highest) - 2.0 * c(i, highest));
      post.fit = judge.fit(post.line, 1.0);
    }
    post.overall_m = post.stick_m = line_to_cut_m(post);
    carry.parts.push_back(std::move(post));
  }
}

/// Peak down to the bottom of the commons' plumb cuts, where they meet the hub's corners.
void add_hub(Carry& carry, const Roof& roof, double common_slope_rad) {
  const Spec& spec = roof.spec;
  if (spec.hub_m <= 0.0) return;
  Part hub{PartKind::hub, Place{}};
  hub.line.planned = hub_corner_m(roof) * std::tan(common_slope_rad) +
                     spec.rafter_depth_m / std::cos(common_slope_rad);
  hub.overall_m = hub.stick_m = hub.line.planned;
  carry.parts.push_back(std::move(hub));
}

}  // namespace

Carry carry(const layout::Plan& plan, double plate_offset_m, const Spec& spec,
            const base::Tolerance& tolerance, const std::optional<FoundCorners>& found) {
  const Roof roof = roof_over(layout::parallel(plan.polygon, plate_offset_m), spec);
  Plate planned = plate_over(layout::corners_of(plan.polygon, plan), plate_offset_m, roof.height_m);
  set_apex(planned, plan.center);

  Carry result;
  std::optional<Found> as_found;
  if (found) as_found = found_roof(plan, plate_offset_m, roof, *found, result.remarks);
  const Plate& shown = as_found ? as_found->plate : planned;
  result.apex = {{shown.apex.x, shown.apex.y}, roof.height_m};

  const auto planned_bays = bays(roof, planned);
  const auto found_bays = as_found ? bays(roof, as_found->plate) : planned_bays;
  const Judge judge(tolerance, as_found ? &*as_found : nullptr);
  for (std::size_t i = 0; i < planned_bays.size(); ++i)
    merge(result, roof, planned_bays[i], found_bays[i], judge, i);
  add_posts(result, roof, planned_bays.size(), as_found ? found->footings : std::nullopt, judge);
  add_hub(result, roof, planned_bays.front().exact.common_slope.value);
  if (as_found) result.joints = joints(roof, planned_bays, found_bays, judge);
  remark_on_seats(result, spec);
  remark_on_lost_jacks(result);
  return result;
}

double line_to_cut_m(const Part& part) {
  return part.fit == Fit::own && part.line.found ? *part.line.found : part.line.planned;
}

double square_figure_m(double angle_rad, double arm_m) { return arm_m * std::tan(angle_rad); }

}  // namespace stakewright::roof
