#include "stakewright/roof/sensitivity.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <utility>

#include "bay.hpp"
#include "plate.hpp"

namespace stakewright::roof {
namespace {

/// Meters or radians a meter: an answer smaller than this is rounding, not an answer.
constexpr double kNoAnswer = 1e-9;

/// The planned roof, its apex free to follow the corners where the job says so.
struct Planned {
  Roof roof;
  std::vector<base::Point> corners;
  Plate plate;
};

Planned planned_roof(const layout::Plan& plan, double plate_offset_m, const Spec& spec) {
  const Roof roof = roof_over(layout::parallel(plan.polygon, plate_offset_m), spec);
  const auto corners = layout::corners_of(plan.polygon, plan);
  Plate plate = plate_over(corners, plate_offset_m, roof.height_m);
  set_apex(plate, plan.center);
  // Even hips of a regular plate stand over its center: the search cannot fail.
  if (spec.apex_over == ApexOver::even_hips) set_apex_for_even_hips(plate);
  return {roof, corners, plate};
}

/// Derivative of a figure of a bay by the place of one corner of the plan.
base::Point by_corner(const Plate& plate, const Linear& figure, std::size_t bay,
                      std::size_t corner) {
  const auto rows = window_rows(bay, plate.corners.size());
  base::Point result;
  for (std::size_t k = 0; k < rows.size(); ++k)
    result = result + figure.by[k] * base::Point{plate.by(rows[k], 2 * corner),
                                                 plate.by(rows[k], 2 * corner + 1)};
  return result;
}

/// Calls `visit(answer without shifts, figure)` for each line and each cut of a bay.
template <class Visit>
void each_figure(const Bay& bay, bool cuts, const Visit& visit) {
  if (!cuts)
    for (const auto& one : bay.parts) visit(Answer{one.part.kind, one.part.at, {}}, one.line);
  else
    for (const auto& one : bay.cuts) {
      Answer answer{one.cut.part, one.cut.at, one.cut.name};
      answer.lever_m = one.lever_m;
      visit(answer, one.angle);
    }
}

}  // namespace

std::vector<Answer> sensitivity(const layout::Plan& plan, double plate_offset_m, const Spec& spec,
                                std::size_t corner) {
  const Planned planned = planned_roof(plan, plate_offset_m, spec);
  assert(corner < planned.corners.size());
  const base::Point radius = planned.corners[corner] - plan.center;
  const base::Point outward = (1.0 / base::norm_m(radius)) * radius;
  const auto all = bays(planned.roof, planned.plate);
  std::vector<Answer> answers;
  for (const bool cuts : {false, true})
    for (std::size_t i = 0; i < all.size(); ++i)
      each_figure(all[i], cuts, [&](Answer answer, const Linear& figure) {
        const base::Point by = by_corner(planned.plate, figure, i, corner);
        answer.outward = base::dot(by, outward);
        answer.sideways = base::dot(by, base::clockwise(outward));
        if (std::hypot(answer.outward, answer.sideways) > kNoAnswer)
          answers.push_back(std::move(answer));
      });
  return answers;
}

CornerNeed corner_need(const layout::Plan& plan, double plate_offset_m, const Spec& spec,
                       double part_tolerance_m) {
  const Planned planned = planned_roof(plan, plate_offset_m, spec);
  CornerNeed need;
  need.alone_m = need.together_m = std::numeric_limits<double>::infinity();
  // The plan is regular: what holds for one bay and every corner holds for every bay.
  const Bay first = bays(planned.roof, planned.plate).front();
  for (const bool cuts : {false, true})
    each_figure(first, cuts, [&](const Answer& answer, const Linear& figure) {
      if (answer.part == PartKind::blocking) return;
      double together = 0.0;
      for (std::size_t corner = 0; corner < planned.corners.size(); ++corner) {
        const double gap =
            answer.lever_m * base::norm_m(by_corner(planned.plate, figure, 0, corner));
        if (gap <= kNoAnswer) continue;
        together += gap;
        need.alone_m = std::min(need.alone_m, part_tolerance_m / gap);
      }
      if (together * need.together_m <= part_tolerance_m) return;
      need.together_m = part_tolerance_m / together;
      need.part = answer.part;
      need.at = answer.at;
      need.cut = answer.cut;
    });
  return need;
}

}  // namespace stakewright::roof
