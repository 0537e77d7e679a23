#include "found_drawing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include "label_room.hpp"
#include "pen.hpp"
#include "plan_marks.hpp"

namespace stakewright::forms {
namespace {

using base::Point;
using drawing::At;
using drawing::Box;
using suspects::Cause;

// Where planned and found corners lie on the page

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

// The drawing

struct Along {
  Direction unit;
  double length_pt = 0.0;
};

Along along(At from, At to) {
  const double dx = to.x_pt - from.x_pt;
  const double dy = to.y_pt - from.y_pt;
  const double length = std::hypot(dx, dy);
  if (length == 0.0) return {};
  return {{dx / length, dy / length}, length};
}

At beside(At from, Direction unit, double forth_pt, double aside_pt) {
  return {from.x_pt + forth_pt * unit.x - aside_pt * unit.y,
          from.y_pt + forth_pt * unit.y + aside_pt * unit.x};
}

/// Explanations less likely than this are told in words only.
constexpr double kLeastMarked = 0.05;
constexpr std::size_t kMostMarked = 3;
/// A circle or ellipse larger than this would run through other corners.
constexpr double kLargestRound_pt = 60.0;

class Plotter {
 public:
  Plotter(drawing::Page& page, const Box& box, const job::Job& job, const check::Findings& findings,
          const FoundView& found, const Voice& voice)
      : page_(page),
        pen_(page),
        box_(box),
        job_(job),
        findings_(findings),
        found_(found),
        voice_(voice),
        labels_(layout::corner_labels(job.plan.polygon.sides)),
        room_(box) {}

  FoundDrawn draw() {
    mark_suspects();
    draw_left_out();
    draw_outlines();
    draw_corners();
    draw_center_pin();
    label_corners();
    number_suspects();
    return drawn_;
  }

 private:
  void keep_off_ring(const std::vector<At>& points) {
    for (std::size_t i = 0; i < points.size(); ++i)
      room_.keep_off(Segment{points[i], points[(i + 1) % points.size()]});
  }

  /// What of a reading lies in the drawing: its tape, or both sights of an angle.
  [[nodiscard]] std::vector<Segment> lines_of(std::size_t observation) const {
    const auto& seen = findings_.network.observations[observation];
    std::vector<Segment> lines;
    const auto add = [&](std::size_t from, std::size_t to) {
      if (const auto line = clipped({point_at(from), point_at(to)}, box_)) lines.push_back(*line);
    };
    if (!seen.at) {
      add(seen.from, seen.to);
    } else {
      add(*seen.at, seen.from);
      add(*seen.at, seen.to);
    }
    return lines;
  }

  [[nodiscard]] At point_at(std::size_t point) const {
    return found_.view.at(findings_.network.points[point].planned);
  }

  [[nodiscard]] bool is_suspect(std::size_t observation) const {
    return std::find(hatched_.begin(), hatched_.end(), observation) != hatched_.end();
  }

  /// Tapes of the likeliest explanations are hatched; where their numbers go is kept for later.
  void mark_suspects() {
    const auto& ranked = findings_.suspects.ranked;
    for (std::size_t k = 0; k < ranked.size() && drawn_.numbered.size() < kMostMarked; ++k) {
      if (ranked[k].causes.empty() || ranked[k].chance < kLeastMarked) continue;
      drawn_.numbered.push_back(k);
      for (const Cause& cause : ranked[k].causes) mark(cause, k);
    }
  }

  void mark(const Cause& cause, std::size_t explanation) {
    switch (cause.what) {
      case Cause::What::reading:
      case Cause::What::wrong_stake:
        mark_tape(cause.index, explanation);
        break;
      case Cause::What::rows:
        mark_tape(cause.index, explanation);
        if (cause.other) mark_tape(*cause.other, explanation);
        break;
      case Cause::What::stake:
        mark_point(cause.index, explanation);
        break;
      case Cause::What::labels:
        mark_point(cause.index, explanation);
        if (cause.other) mark_point(*cause.other, explanation);
        break;
      case Cause::What::instrument_zero:
      case Cause::What::instrument_scale:
        break;  // of no one place; told in words
    }
  }

  void mark_tape(std::size_t observation, std::size_t explanation) {
    const std::vector<Segment> lines = lines_of(observation);
    if (lines.empty()) return;
    if (!is_suspect(observation)) {
      for (const Segment& line : lines) {
        draw_hatched(page_, line.from, line.to);
        keep_off_hatches(line);
      }
      hatched_.push_back(observation);
      drawn_.hatched = true;
    }
    const Segment& line = lines.back();
    tags_.push_back({{line.from.x_pt + 0.38 * (line.to.x_pt - line.from.x_pt),
                      line.from.y_pt + 0.38 * (line.to.y_pt - line.from.y_pt)},
                     explanation});
  }

  void keep_off_hatches(const Segment& line) {
    const double dx = line.to.x_pt - line.from.x_pt;
    const double dy = line.to.y_pt - line.from.y_pt;
    const double length = std::hypot(dx, dy);
    if (length == 0.0) return;
    for (const double aside : {-kHatchReach_pt, 0.0, kHatchReach_pt}) {
      const double x = -aside * dy / length;
      const double y = aside * dx / length;
      room_.keep_off(
          Segment{{line.from.x_pt + x, line.from.y_pt + y}, {line.to.x_pt + x, line.to.y_pt + y}});
    }
  }

  void mark_point(std::size_t point, std::size_t explanation) {
    const bool corner = point < found_.corners.size() && found_.corners[point].off;
    tags_.push_back(
        {corner ? found_.found_at(found_.corners[point]) : point_at(point), explanation});
  }

  void draw_left_out() {
    for (const std::size_t i : findings_.slips.excluded) {
      if (is_suspect(i)) continue;
      for (const Segment& line : lines_of(i)) {
        pen_.line(line.from, line.to, left_out_stroke().width_pt, left_out_stroke().dash_pt);
        room_.keep_off(line);
        drawn_.left_out = true;
      }
    }
  }

  void draw_outlines() {
    drawing::Polygon planned{{}, drawing::Fill::none, planned_stroke()};
    for (const FoundCorner& corner : found_.corners)
      planned.points.push_back(found_.planned_at(corner));
    keep_off_ring(planned.points);
    page_.marks.emplace_back(std::move(planned));
    for (std::size_t i = 0; i < found_.corners.size(); ++i) {
      const FoundCorner& one = found_.corners[i];
      const FoundCorner& next = found_.corners[(i + 1) % found_.corners.size()];
      if (!one.off || !next.off) continue;
      const Segment side{found_.found_at(one), found_.found_at(next)};
      pen_.line(side.from, side.to, found_stroke().width_pt);
      room_.keep_off(side);
    }
  }

  void draw_corners() {
    const double tolerance_pt = found_.enlarged_pt(job_.tolerance.corner_m);
    for (std::size_t i = 0; i < found_.corners.size(); ++i) {
      const At wanted = found_.planned_at(found_.corners[i]);
      if (found_.any_found && tolerance_pt <= kLargestRound_pt) {
        page_.marks.emplace_back(
            drawing::Circle{wanted, tolerance_pt, drawing::Fill::none, tolerance_stroke()});
        keep_off_ring(ellipse_points(wanted, tolerance_pt, tolerance_pt, 0.0));
        drawn_.tolerance = true;
      }
      draw_wanted(page_, wanted);
      room_.keep_off(around(wanted, 4.0));
      draw_as_found(i);
    }
  }

  void draw_as_found(std::size_t i) {
    const FoundCorner& corner = found_.corners[i];
    if (!corner.off) {
      draw_not_fixed(page_, found_.planned_at(corner));
      room_.keep_off(around(found_.planned_at(corner), kFoundReach_pt + 1.0));
      drawn_.not_fixed = true;
      return;
    }
    const At at = found_.found_at(corner);
    const auto ring =
        ellipse_points(at, found_.enlarged_pt(corner.ellipse.major_m),
                       found_.enlarged_pt(corner.ellipse.minor_m), corner.ellipse.bearing_rad);
    page_.marks.emplace_back(drawing::Polygon{ring, drawing::Fill::none, ellipse_stroke()});
    keep_off_ring(ring);
    const bool moves = std::any_of(findings_.moves.begin(), findings_.moves.end(),
                                   [i](const placement::Move& move) { return move.corner == i; });
    const Segment way{at, found_.planned_at(corner)};
    if (moves) draw_move(page_, way.from, way.to);
    room_.keep_off(way);
    draw_found(page_, at, corner.verdict);
    room_.keep_off(around(at, kFoundReach_pt + 1.5));
    drawn_.moves = drawn_.moves || moves;
    drawn_.out = drawn_.out || corner.verdict == placement::Verdict::out;
    drawn_.undecided = drawn_.undecided || corner.verdict == placement::Verdict::undecided;
  }

  void draw_center_pin() {
    const At center = found_.view.at(job_.plan.center);
    draw_center(page_, center);
    room_.keep_off(around(center, kCenterReach_pt));
  }

  [[nodiscard]] std::string words_at(std::size_t i) const {
    const FoundCorner& corner = found_.corners[i];
    if (corner.verdict == placement::Verdict::in) return labels_[i];
    if (corner.verdict == placement::Verdict::undecided) return labels_[i] + " ?";
    return labels_[i] + ' ' + voice_.text(verdict_word(corner.verdict));
  }

  [[nodiscard]] bool full_words() const { return found_.corners.size() <= 16; }

  void label_corners() {
    const double size = found_.corners.size() <= 12 ? 13.0 : 10.0;
    const Style style{.size_pt = size, .weight = drawing::Weight::bold};
    for (std::size_t i = 0; i < found_.corners.size(); ++i) {
      const FoundCorner& corner = found_.corners[i];
      const Direction out = paper_direction(corner.planned - job_.plan.center);
      const At at = corner.off && base::norm_m(*corner.off) > 0.0 &&
                            base::dot(*corner.off, corner.planned - job_.plan.center) > 0.0
                        ? found_.found_at(corner)
                        : found_.planned_at(corner);
      auto directions = fan(out);
      for (const Direction& direction : fan(back(out))) directions.push_back(direction);
      for (const Direction& direction : all_round()) directions.push_back(direction);
      const std::string words = full_words() ? words_at(i) : labels_[i];
      constexpr double kReach_pt = 110.0;
      const auto placed = room_.place(at, words, style, directions, kReach_pt);
      if (placed) {
        LabelRoom::draw(pen_, *placed);
      } else {
        drawn_.labels_thinned = true;
      }
    }
    const auto placed = room_.place(found_.view.at(job_.plan.center), layout::kCenterLabel, style,
                                    all_round(), 60.0);
    if (placed) LabelRoom::draw(pen_, *placed);
  }

  void number_suspects() {
    for (const Tag& tag : tags_) {
      // Room for the disc: its two digits are as wide as it is.
      constexpr Style kRoom{.size_pt = 19.0};
      const auto placed = room_.place(tag.at, "0", kRoom, all_round(), 90.0);
      if (!placed) continue;
      const At middle{placed->baseline.x_pt,
                      placed->baseline.y_pt - drawing::cap_height_pt(kRoom.size_pt) / 2.0};
      if (placed->leader) pen_.line(placed->leader->from, placed->leader->to, kThin_pt);
      draw_number(page_, middle, std::to_string(tag.explanation + 1));
      room_.keep_off(around(middle, kNumberRadius_pt + 1.0));
    }
  }

  struct Tag {
    At at;
    std::size_t explanation = 0;
  };

  drawing::Page& page_;
  Pen pen_;
  Box box_;
  const job::Job& job_;
  const check::Findings& findings_;
  const FoundView& found_;
  const Voice& voice_;
  std::vector<std::string> labels_;
  LabelRoom room_;
  std::vector<std::size_t> hatched_;  ///< observations
  std::vector<Tag> tags_;
  FoundDrawn drawn_;
};

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

drawing::Stroke planned_stroke() { return {0.75, {5.0, 3.0}}; }

drawing::Stroke found_stroke() { return {1.6, {}}; }

drawing::Stroke tolerance_stroke() { return {0.5, {}}; }

drawing::Stroke ellipse_stroke() { return {0.75, {1.5, 1.5}}; }

drawing::Stroke left_out_stroke() { return {1.0, {12.0, 4.0}}; }

std::vector<At> ellipse_points(At center, double major_pt, double minor_pt, double bearing_rad) {
  constexpr int kPieces = 32;
  std::vector<At> points;
  const double s = std::sin(bearing_rad);
  const double c = std::cos(bearing_rad);
  for (int k = 0; k < kPieces; ++k) {
    const double angle = 2.0 * std::numbers::pi * k / kPieces;
    const double u = major_pt * std::cos(angle);
    const double v = minor_pt * std::sin(angle);
    // Along the bearing on paper: right by its sine, up by its cosine.
    points.push_back({center.x_pt + u * s + v * c, center.y_pt - u * c + v * s});
  }
  return points;
}

void draw_wanted(drawing::Page& page, At at) {
  constexpr double kReach_pt = 3.0;
  Pen pen(page);
  pen.line({at.x_pt - kReach_pt, at.y_pt}, {at.x_pt + kReach_pt, at.y_pt}, kRule_pt);
  pen.line({at.x_pt, at.y_pt - kReach_pt}, {at.x_pt, at.y_pt + kReach_pt}, kRule_pt);
}

void draw_found(drawing::Page& page, At at, placement::Verdict verdict) {
  constexpr double kRadius_pt = 3.0;
  switch (verdict) {
    case placement::Verdict::in:
      page.marks.emplace_back(drawing::Circle{at, kRadius_pt, drawing::Fill::black, {0.0, {}}});
      return;
    case placement::Verdict::undecided:
      page.marks.emplace_back(drawing::Circle{at, kRadius_pt, drawing::Fill::white, {1.2, {}}});
      return;
    case placement::Verdict::out:
      break;
  }
  page.marks.emplace_back(drawing::Circle{at, kFoundReach_pt, drawing::Fill::white, {1.4, {}}});
  page.marks.emplace_back(
      drawing::Rectangle{around(at, kRadius_pt), drawing::Fill::black, {0.0, {}}});
}

void draw_not_fixed(drawing::Page& page, At at) {
  page.marks.emplace_back(
      drawing::Circle{at, kFoundReach_pt, drawing::Fill::none, {1.2, {2.0, 2.0}}});
}

void draw_move(drawing::Page& page, At from, At to) {
  constexpr double kHead_pt = 7.0;
  constexpr double kHalf_pt = 3.2;
  Pen pen(page);
  const auto [unit, length] = along(from, to);
  if (length < 1.5 * kHead_pt) {
    pen.line(from, to, 2.0);
    return;
  }
  pen.line(from, beside(from, unit, length - kHead_pt, 0.0), 2.0);
  page.marks.emplace_back(drawing::Polygon{{to, beside(from, unit, length - kHead_pt, kHalf_pt),
                                            beside(from, unit, length - kHead_pt, -kHalf_pt)},
                                           drawing::Fill::black,
                                           {0.0, {}}});
}

void draw_hatched(drawing::Page& page, At from, At to) {
  constexpr double kStep_pt = 7.0;
  constexpr double kHalf_pt = kHatchReach_pt;
  Pen pen(page);
  const auto [unit, length] = along(from, to);
  pen.line(from, to, 1.2);
  for (double forth = 0.5 * kStep_pt; forth < length; forth += kStep_pt)
    pen.line(beside(from, unit, forth - kHalf_pt, kHalf_pt),
             beside(from, unit, forth + kHalf_pt, -kHalf_pt), kRule_pt);
}

base::Fact verdict_word(placement::Verdict verdict) {
  switch (verdict) {
    case placement::Verdict::in:
      return {"verdicts.in"};
    case placement::Verdict::out:
      return {"verdicts.out"};
    case placement::Verdict::undecided:
      break;
  }
  return {"verdicts.undecided"};
}

FoundDrawn draw_found_plan(drawing::Page& page, const Box& box, const job::Job& job,
                           const check::Findings& findings, const FoundView& found,
                           const Voice& voice) {
  return Plotter(page, box, job, findings, found, voice).draw();
}

}  // namespace stakewright::forms
