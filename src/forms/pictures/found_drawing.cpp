#include "found_drawing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "directions.hpp"
#include "found_marks.hpp"
#include "label_room.hpp"
#include "pen.hpp"
#include "plan_marks.hpp"

namespace stakewright::forms {
namespace {

using drawing::At;
using drawing::Box;
using suspects::Cause;

/// Explanations less likely than this are told in words only.
constexpr double kLeastMarked = 0.05;
constexpr std::size_t kMostMarked = 3;
/// A circle or ellipse larger than this would run through other corners.
constexpr double kLargestRound_pt = 60.0;

class Plotter {
 public:
  Plotter(drawing::Page& page, const Box& box, const job::Job& job, const check::Findings& findings,
          const FoundView& found, const Wording& wording)
      : page_(page),
        pen_(page),
        box_(box),
        job_(job),
        findings_(findings),
        found_(found),
        wording_(wording),
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
    const auto& out = findings_.used.readings_out;
    for (std::size_t i = 0; i < out.size() && i < findings_.network.observations.size(); ++i) {
      if (!out[i].excluded || is_suspect(i)) continue;
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
    return labels_[i] + ' ' + verdict_words(corner.verdict, wording_);
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
      room_.keep_off(around(middle, kSuspectRadius_pt + 1.0));
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
  const Wording& wording_;
  std::vector<std::string> labels_;
  LabelRoom room_;
  std::vector<std::size_t> hatched_;  ///< observations
  std::vector<Tag> tags_;
  FoundDrawn drawn_;
};

}  // namespace

std::string verdict_words(placement::Verdict verdict, const Wording& wording) {
  switch (verdict) {
    case placement::Verdict::in:
      return wording.text("pictures.in");
    case placement::Verdict::out:
      return wording.text("pictures.out");
    case placement::Verdict::undecided:
      break;
  }
  return wording.text("pictures.undecided");
}

FoundDrawn draw_found_plan(drawing::Page& page, const Box& box, const job::Job& job,
                           const check::Findings& findings, const FoundView& found,
                           const Wording& wording) {
  return Plotter(page, box, job, findings, found, wording).draw();
}

}  // namespace stakewright::forms
