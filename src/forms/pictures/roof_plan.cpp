#include "roof_plan.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "label_room.hpp"
#include "pen.hpp"
#include "plan_marks.hpp"

namespace stakewright::forms {
namespace {

using base::Point;
using drawing::At;
using drawing::Box;
using roof::PartKind;

// Plate, eave and every rafter as lines on the ground plan, taken back from the figures of the
// carry: meters, plan frame

struct RafterLine {
  std::size_t part = 0;  ///< of the carry
  base::Point foot;      ///< at the eave
  base::Point plate;     ///< on the plate line
  base::Point head;
};

struct RoofLines {
  std::vector<std::string> labels;
  std::vector<base::Point> plate;  ///< a corner each
  std::vector<base::Point> eave;
  std::vector<base::Point> hub;  ///< empty without one
  std::vector<RafterLine> rafters;
  base::Point apex;
};

Point unit(Point a) { return (1.0 / base::norm_m(a)) * a; }

/// A plate side: its left corner, the way along it, and outward.
struct Side {
  Point corner;
  Point along;
  Point out;
  double run_m = 0.0;  ///< to the apex, square to the side
};

std::vector<Side> sides_of(const std::vector<Point>& corners, Point apex) {
  std::vector<Side> sides;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    Side side;
    side.corner = corners[i];
    side.along = unit(corners[(i + 1) % corners.size()] - corners[i]);
    side.out = -1.0 * base::clockwise(side.along);
    side.run_m = base::dot(corners[i] - apex, side.out);
    sides.push_back(side);
  }
  return sides;
}

/// Where two sides meet once each is shifted outward.
Point meet(const Side& before, double before_m, const Side& here, double here_m) {
  // The meet is corner + a·out of one + b·out of the other, at the given distance from both.
  const double c = base::dot(before.out, here.out);
  const double determinant = 1.0 - c * c;
  const double a = (before_m - c * here_m) / determinant;
  const double b = (here_m - c * before_m) / determinant;
  return here.corner + a * before.out + b * here.out;
}

std::vector<Point> shifted(const std::vector<Side>& sides, const std::vector<double>& by_m) {
  std::vector<Point> corners;
  for (std::size_t i = 0; i < sides.size(); ++i) {
    const std::size_t before = (i + sides.size() - 1) % sides.size();
    corners.push_back(meet(sides[before], by_m[before], sides[i], by_m[i]));
  }
  return corners;
}

std::vector<double> overhangs(const roof::Carry& carry) {
  std::vector<double> values;
  for (const roof::EaveSide& eave : carry.eaves)
    values.push_back(eave.overhang.found.value_or(eave.overhang.planned));
  return values;
}

/// A hub's faces stand square to the hips: its corners lie between them.
std::vector<Point> hub_of(const std::vector<Point>& plate, Point apex, double across_m) {
  std::vector<Point> corners;
  if (across_m <= 0.0) return corners;
  for (std::size_t i = 0; i < plate.size(); ++i) {
    const Point one = unit(plate[i] - apex);
    const Point next = unit(plate[(i + 1) % plate.size()] - apex);
    corners.push_back(apex + (0.5 * across_m / (1.0 + base::dot(one, next))) * (one + next));
  }
  return corners;
}

RoofLines roof_lines(const job::Job& job, const roof::Carry& carry,
                     const roof::FoundCorners* found) {
  RoofLines lines;
  lines.labels = layout::corner_labels(job.plan.polygon.sides);
  lines.apex = carry.apex.at;
  const std::vector<Point> corners = found != nullptr && has_found(carry)
                                         ? found->corners
                                         : layout::corners_of(job.plan.polygon, job.plan);
  const std::vector<double> offsets(corners.size(), job.plate_offset_m);
  lines.plate = shifted(sides_of(corners, lines.apex), offsets);
  const std::vector<Side> sides = sides_of(lines.plate, lines.apex);
  const std::vector<double> over = overhangs(carry);
  assert(over.size() == sides.size());
  lines.eave = shifted(sides, over);
  lines.hub = hub_of(lines.plate, lines.apex, job.roof.hub_m);
  const double height_m = carry.apex.height_m;
  for (std::size_t k = 0; k < carry.parts.size(); ++k) {
    const roof::Part& part = carry.parts[k];
    const double line_m = part.line.found.value_or(part.line.planned);
    if (part.kind == roof::PartKind::hip) {
      const std::size_t i = part.at.corner;
      const Point in = unit(lines.apex - lines.plate[i]);
      const double run_m = base::distance_m(lines.apex, lines.plate[i]);
      const double level = run_m / std::hypot(run_m, height_m);
      lines.rafters.push_back(
          {k, lines.eave[i], lines.plate[i], lines.apex - (part.shortening_m * level) * in});
    } else if (part.kind == roof::PartKind::common || part.kind == roof::PartKind::jack) {
      const std::size_t i = part.at.corner;
      const Side& side = sides[i];
      const Point plate = side.corner + part.from_corner_m * side.along;
      const double level = side.run_m / std::hypot(side.run_m, height_m);
      lines.rafters.push_back({k, plate + over[i] * side.out, plate,
                               plate - ((line_m - part.shortening_m) * level) * side.out});
    }
  }
  return lines;
}

// The drawing

constexpr double kEdge_pt = 52.0;
/// Distance of a dimension line from the eave.
constexpr double kDimensionOut_pt = 26.0;
constexpr double kOwnRadius_pt = 3.0;
constexpr int kMostSidesNumbered = 12;

std::vector<Point> points_of(const RoofLines& lines) {
  std::vector<Point> points = lines.eave;
  points.push_back(lines.apex);
  return points;
}

class Plotter {
 public:
  Plotter(drawing::Page& page, const Box& box, const job::Job& job, const roof::Carry& carry,
          const RoofLines& lines, const Voice& voice)
      : page_(page),
        pen_(page),
        job_(job),
        carry_(carry),
        lines_(lines),
        voice_(voice),
        view_(view_of(points_of(lines), box, kEdge_pt, voice.units())),
        room_(box),
        drawn_{view_.scale, false, false, false} {}

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
      const std::string words = voice_.text(base::Length{length_m});
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
      if (placed) LabelRoom::draw(pen_, *placed);
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
  const Voice& voice_;
  PlanView view_;
  LabelRoom room_;
  RoofDrawn drawn_;
};

}  // namespace

bool has_found(const roof::Carry& carry) {
  return std::any_of(carry.parts.begin(), carry.parts.end(),
                     [](const roof::Part& part) { return part.line.found.has_value(); });
}

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
                         const roof::Carry& carry, const roof::FoundCorners* found,
                         const Voice& voice) {
  const RoofLines lines = roof_lines(job, carry, found);
  return Plotter(page, box, job, carry, lines, voice).draw();
}

}  // namespace stakewright::forms
