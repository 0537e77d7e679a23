// The plan, and what a check found, as a drawing other programs read.
#include <algorithm>

#include "dxf_drawing.hpp"
#include "found_points.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/output/dxf.hpp"
#include "stakewright/results/layout.hpp"

namespace stakewright::output {
namespace {

/// Small beside the plan, and beside one of its sides where there are many.
double text_height_m(const layout::Polygon& polygon) {
  return std::min(polygon.corner_radius_m / 16.0, layout::side_m(polygon) / 4.0);
}

/// The layers every plan has, made first so that they keep their names.
struct PlanLayers {
  std::size_t stakes;
  std::size_t plan_line;
  std::size_t strings;
  std::size_t pins;
};

PlanLayers plan_layers(DxfDrawing& drawing) {
  return {drawing.layer("stakes"), drawing.layer(layout::kPlanLineName, DxfStroke::heavy),
          drawing.layer("strings"), drawing.layer("pins")};
}

void mark(DxfDrawing& drawing, std::size_t layer, base::Point at, const std::string& label) {
  drawing.point(layer, at);
  drawing.text(layer, at, label);
}

/// A corner, its label so many heights of text outward from it (negative: inward).
void mark_corner(DxfDrawing& drawing, std::size_t layer, base::Point at, const layout::Plan& plan,
                 const std::string& label, double heights_out) {
  const base::Point radius = at - plan.center;
  const double out_m = heights_out * text_height_m(plan.polygon);
  drawing.point(layer, at);
  drawing.text_amid(layer, at + (out_m / base::norm_m(radius)) * radius, label);
}

// Planned labels stand inside the plan, where no string runs; those of places found outside it.
constexpr double kPlannedLabel = -2.0;
constexpr double kFoundLabel = 3.5;

void draw_outlines(DxfDrawing& drawing, const layout::Plan& plan) {
  for (const layout::KeepClear& outline : plan.keep_clear) {
    const std::size_t layer = drawing.layer("keep clear " + outline.name, DxfStroke::dashed);
    drawing.closed(layer, outline.outline);
    drawing.text(layer, outline.outline.front(), outline.name);
  }
}

void draw_plan(DxfDrawing& drawing, const PlanLayers& layers, const job::Job& job) {
  for (const layout::Stake& stake : layout::stakes(job.plan))
    mark_corner(drawing, layers.stakes, stake.at, job.plan, stake.label, kPlannedLabel);
  mark(drawing, layers.stakes, job.plan.center, layout::kCenterLabel);
  drawing.closed(layers.plan_line, layout::corners_of(job.plan.polygon, job.plan));
  for (const layout::Pin& pin : job.plan.pins) mark(drawing, layers.pins, pin.at, pin.name);
}

}  // namespace

std::string layout_dxf(const job::Job& job, const results::LayoutResult& result,
                       base::Units units) {
  DxfDrawing drawing(units, text_height_m(job.plan.polygon));
  const PlanLayers layers = plan_layers(drawing);
  draw_plan(drawing, layers, job);
  for (const layout::LineFigures& line : result.lines) {
    const bool overhead = line.name == job::kRoofEdgeName;
    drawing.closed(drawing.layer(line.name, overhead ? DxfStroke::dashed : DxfStroke::plain),
                   line.corners);
  }
  for (const layout::String& string : result.strings)
    drawing.line(layers.strings, string.nail_before, string.nail_after);
  draw_outlines(drawing, job.plan);
  return drawing.file();
}

std::string found_dxf(const job::Job& job, const check::Findings& findings, base::Units units) {
  DxfDrawing drawing(units, text_height_m(job.plan.polygon));
  const PlanLayers layers = plan_layers(drawing);
  const std::size_t found = drawing.layer("found");
  const std::size_t found_line = drawing.layer("found line", DxfStroke::dashed);
  draw_plan(drawing, layers, job);
  std::vector<base::Point> ring;
  for (const FoundPoint& point : found_points(job, findings)) {
    if (!point.found) continue;
    if (point.label == layout::kCenterLabel) {
      drawing.point(found, *point.found);
      continue;
    }
    mark_corner(drawing, found, *point.found, job.plan, point.label + " found", kFoundLabel);
    ring.push_back(*point.found);
  }
  if (ring.size() == static_cast<std::size_t>(job.plan.polygon.sides))
    drawing.closed(found_line, ring);
  return drawing.file();
}

}  // namespace stakewright::output
