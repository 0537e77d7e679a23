#include "roof_plan.hpp"

#include <algorithm>
#include <cmath>

#include "directions.hpp"
#include "label_room.hpp"
#include "pen.hpp"
#include "plan_marks.hpp"

namespace stakewright::forms {
namespace {

using base::Point;
using drawing::At;
using drawing::Box;
using roof::PartKind;

constexpr double kEdge_pt = 52.0;
/// Distance of a dimension line from the eave.
constexpr double kDimensionOut_pt = 26.0;
constexpr double kOwnRadius_pt = 3.0;
constexpr int kMostSidesNumbered = 12;

PlanView view_of_roof(const RoofLines& lines, const Box& box, base::Units units) {
  double left = lines.apex.x_m;
  double right = left;
  double back_m = lines.apex.y_m;
  double front = back_m;
  for (const Point& corner : lines.eave) {
    left = std::min(left, corner.x_m);
    right = std::max(right, corner.x_m);
    back_m = std::min(back_m, corner.y_m);
    front = std::max(front, corner.y_m);
  }
  const double room_x = box.width_pt - 2.0 * kEdge_pt;
  const double room_y = box.height_pt - 2.0 * kEdge_pt;
  return {scale_for(std::max(right - left, (front - back_m) * room_x / room_y), room_x, units),
          {0.5 * (left + right), 0.5 * (back_m + front)},
          {box.x_pt + box.width_pt / 2.0, box.y_pt + box.height_pt / 2.0}};
}

class Plotter {
 public:
  Plotter(drawing::Page& page, const Box& box, const job::Job& job, const roof::Carry& carry,
          const RoofLines& lines, base::Units units)
      : page_(page),
        pen_(page),
        job_(job),
        carry_(carry),
        lines_(lines),
        units_(units),
        view_(view_of_roof(lines, box, units)),
        room_(box),
        drawn_{view_.scale, false, false, false, false} {}

  RoofDrawn draw() {
    ring(lines_.plate, plate_stroke(), drawing::Fill::none);
    ring(lines_.eave, eave_stroke(), drawing::Fill::none);
    draw_rafters();
    if (!lines_.hub.empty()) ring(lines_.hub, {1.2, {}}, drawing::Fill::white);
    const auto eave = draw_dimension(0);
    label_corners();
    number_jacks();
    label_dimension(eave, PartKind::fascia);
    return drawn_;
  }

 private:
  void ring(const std::vector<Point>& corners, const drawing::Stroke& stroke, drawing::Fill fill) {
    drawing::Polygon polygon{{}, fill, stroke};
    for (const Point& corner : corners) polygon.points.push_back(view_.at(corner));
    for (std::size_t i = 0; i < polygon.points.size(); ++i)
      room_.keep_off(Segment{polygon.points[i], polygon.points[(i + 1) % polygon.points.size()]});
    page_.marks.emplace_back(std::move(polygon));
  }

  void draw_rafters() {
    // Heavier lines over lighter ones.
    for (const PartKind kind : {PartKind::jack, PartKind::common, PartKind::hip}) {
      for (const RafterLine& rafter : lines_.rafters) {
        if (carry_.parts[rafter.part].kind != kind) continue;
        const Segment line{view_.at(rafter.foot), view_.at(rafter.head)};
        pen_.line(line.from, line.to, rafter_stroke(kind).width_pt, rafter_stroke(kind).dash_pt);
        room_.keep_off(line);
        drawn_.jacks = drawn_.jacks || kind == PartKind::jack;
      }
    }
    for (const RafterLine& rafter : lines_.rafters) {
      if (carry_.parts[rafter.part].fit != roof::Fit::own) continue;
      const At at = view_.at(0.5 * (rafter.plate + rafter.head));
      draw_own_mark(page_, at);
      room_.keep_off(around(at, kOwnRadius_pt + 1.0));
      drawn_.own = true;
    }
  }

  [[nodiscard]] Direction outward(std::size_t side) const {
    const Point along = lines_.eave[(side + 1) % lines_.eave.size()] - lines_.eave[side];
    return paper_direction(-1.0 * base::clockwise(along));
  }

  /// A line outside the eave of a side, with ticks where its corners are.
  Segment draw_dimension(std::size_t side) {
    const At one = view_.at(lines_.eave[side]);
    const At other = view_.at(lines_.eave[(side + 1) % lines_.eave.size()]);
    const Direction out = outward(side);
    const auto moved = [&out](At at, double by) {
      return At{at.x_pt + by * out.x, at.y_pt + by * out.y};
    };
    const Segment line{moved(one, kDimensionOut_pt), moved(other, kDimensionOut_pt)};
    pen_.line(line.from, line.to, kThin_pt);
    room_.keep_off(line);
    for (const At& end : {one, other}) {
      const Segment extension{moved(end, 4.0), moved(end, kDimensionOut_pt + 4.0)};
      pen_.line(extension.from, extension.to, kThin_pt);
      room_.keep_off(extension);
    }
    return line;
  }

  void label_dimension(const Segment& line, PartKind kind) {
    for (const roof::Part& part : carry_.parts) {
      if (part.kind != kind) continue;
      const double length_m = part.line.found.value_or(part.line.planned);
      const std::string words = base::text_from_length(length_m, units_);
      if (const auto placed = room_.place_beside(line, words, kPlain))
        LabelRoom::draw(pen_, *placed);
      return;
    }
  }

  void label_corners() {
    const bool few = lines_.eave.size() <= 12;
    const Style style{.size_pt = few ? 13.0 : kText_pt, .weight = drawing::Weight::bold};
    for (std::size_t i = 0; i < lines_.eave.size(); ++i) {
      const Direction out = paper_direction(lines_.eave[i] - lines_.apex);
      const auto placed =
          room_.place(view_.at(lines_.eave[i]), lines_.labels[i], style, fan(out), 60.0);
      if (placed) {
        LabelRoom::draw(pen_, *placed);
      } else {
        drawn_.thinned = true;
      }
    }
  }

  /// At the eave ends of the jacks of every side, where all of them have room.
  void number_jacks() {
    if (job_.plan.polygon.sides > kMostSidesNumbered) return;
    LabelRoom attempt = room_;
    std::vector<PlacedLabel> labels;
    for (const RafterLine& rafter : lines_.rafters) {
      const roof::Part& part = carry_.parts[rafter.part];
      if (part.kind != PartKind::jack) continue;
      const Direction out = paper_direction(rafter.foot - rafter.plate);
      const auto placed = attempt.place(view_.at(rafter.foot), std::to_string(part.at.number),
                                        kPlain, {out}, kWithoutLeader_pt);
      if (!placed) return;
      labels.push_back(*placed);
    }
    room_ = attempt;
    for (const PlacedLabel& label : labels) LabelRoom::draw(pen_, label);
    drawn_.jacks_numbered = !labels.empty();
  }

  drawing::Page& page_;
  Pen pen_;
  const job::Job& job_;
  const roof::Carry& carry_;
  const RoofLines& lines_;
  base::Units units_;
  PlanView view_;
  LabelRoom room_;
  RoofDrawn drawn_;
};

}  // namespace

drawing::Stroke rafter_stroke(PartKind kind) {
  switch (kind) {
    case PartKind::hip:
      return {2.4, {}};
    case PartKind::common:
      return {1.3, {}};
    default:
      return {0.6, {}};
  }
}

drawing::Stroke plate_stroke() { return {1.6, {12.0, 3.0}}; }

drawing::Stroke eave_stroke() { return {0.9, {3.5, 2.0}}; }

void draw_own_mark(drawing::Page& page, At at) {
  page.marks.emplace_back(drawing::Circle{at, kOwnRadius_pt, drawing::Fill::white, {1.0, {}}});
}

RoofDrawn draw_roof_plan(drawing::Page& page, const Box& box, const job::Job& job,
                         const roof::Carry& carry, const RoofLines& lines, base::Units units) {
  return Plotter(page, box, job, carry, lines, units).draw();
}

}  // namespace stakewright::forms
