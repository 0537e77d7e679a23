#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "correction.hpp"
#include "directions.hpp"
#include "label_room.hpp"
#include "plan_marks.hpp"

namespace stakewright::forms {
namespace {

using base::Point;
using drawing::At;
using drawing::Box;

/// Room round the plan for labels and the arrow.
constexpr double kEdge_pt = 26.0;
/// The arrow is drawn no longer than this.
constexpr double kLongestArrow_pt = 30.0;
constexpr double kLabelReach_pt = 40.0;

/// 1, 2, 5 and these times ten and so on: the largest with which the arrow fits.
double enlargement(double arrow_pt) {
  double best = 0.0;
  for (double decade = 0.01; decade < 1e5; decade *= 10.0)
    for (const double step : {1.0, 2.0, 5.0})
      if (decade * step * arrow_pt <= kLongestArrow_pt) best = decade * step;
  return best;
}

class MovePicture {
 public:
  MovePicture(drawing::Page& page, const Box& box, const CorrectionInput& input,
              const placement::Move& move)
      : page_(page), pen_(page), box_(box), input_(input), move_(move), room_(box) {
    for (std::size_t i = 0; i < input.findings.network.corner_count; ++i)
      corners_.push_back(input.findings.network.points[i].planned);
    const auto [left, right] = std::minmax_element(corners_.begin(), corners_.end(),
                                                   [](Point a, Point b) { return a.x_m < b.x_m; });
    const auto [back, front] = std::minmax_element(corners_.begin(), corners_.end(),
                                                   [](Point a, Point b) { return a.y_m < b.y_m; });
    scale_ = std::min((box.width_pt - 2.0 * kEdge_pt) / (right->x_m - left->x_m),
                      (box.height_pt - 2.0 * kEdge_pt) / (front->y_m - back->y_m));
    middle_ = 0.5 * Point{left->x_m + right->x_m, back->y_m + front->y_m};
  }

  double draw() {
    const double factor = enlargement(move_.distance_m * scale_);
    draw_plan_line();
    draw_tapes();
    draw_arrow(factor);
    label_all();
    return factor;
  }

 private:
  [[nodiscard]] At at(Point p) const {
    return {box_.x_pt + box_.width_pt / 2.0 + scale_ * (p.x_m - middle_.x_m),
            box_.y_pt + box_.height_pt / 2.0 - scale_ * (p.y_m - middle_.y_m)};
  }

  void draw_plan_line() {
    drawing::Polygon outline{{}, drawing::Fill::none, {kThin_pt, {1.5, 1.5}}};
    for (const Point& corner : corners_) outline.points.push_back(at(corner));
    for (std::size_t i = 0; i < corners_.size(); ++i)
      room_.keep_off(Segment{outline.points[i], outline.points[(i + 1) % corners_.size()]});
    page_.marks.emplace_back(std::move(outline));
    const At center = at(input_.job.plan.center);
    draw_center(page_, center);
    room_.keep_off(around(center, kCenterReach_pt));
  }

  void draw_tapes() {
    for (const placement::MoveTape& tape : move_.tapes) {
      const Segment line{at(corners_[tape.from]), at(corners_[move_.corner])};
      pen_.line(line.from, line.to, 1.2);
      room_.keep_off(line);
      draw_stake(page_, line.from);
      room_.keep_off(around(line.from, kStakeRadius_pt + 1.0));
    }
  }

  /// From where the stake stands to where it belongs; the place it belongs is on the plan line.
  void draw_arrow(double factor) {
    const Point radius = corners_[move_.corner] - input_.job.plan.center;
    const double length_m = std::hypot(radius.x_m, radius.y_m);
    const Point out{radius.x_m / length_m, radius.y_m / length_m};
    const Point clockwise{out.y_m, -out.x_m};
    const Point shift = move_.outward_m * out + move_.sideways_m * clockwise;
    const At head = at(corners_[move_.corner]);
    const double k = factor * scale_;
    const At tail{head.x_pt - k * shift.x_m, head.y_pt + k * shift.y_m};
    page_.marks.emplace_back(drawing::Circle{head, 3.6, drawing::Fill::white, {1.2, {}}});
    add_arrow(tail, head);
    room_.keep_off(Segment{tail, head});
    room_.keep_off(around(head, 6.0));
    room_.keep_off(around(tail, 5.0));
  }

  void add_arrow(At tail, At head) {
    const double length = std::hypot(head.x_pt - tail.x_pt, head.y_pt - tail.y_pt);
    if (length <= 0.0) return;
    const Direction along{(head.x_pt - tail.x_pt) / length, (head.y_pt - tail.y_pt) / length};
    const double head_length = std::min(8.0, length);
    const At neck{head.x_pt - head_length * along.x, head.y_pt - head_length * along.y};
    pen_.line(tail, neck, 2.2);
    const auto beside = [&](double by) {
      return At{neck.x_pt - by * along.y, neck.y_pt + by * along.x};
    };
    page_.marks.emplace_back(
        drawing::Polygon{{head, beside(3.6), beside(-3.6)}, drawing::Fill::black, {0.0, {}}});
    page_.marks.emplace_back(drawing::Circle{tail, 2.2, drawing::Fill::black, {0.0, {}}});
  }

  void label_all() {
    label(at(corners_[move_.corner]), input_.label(move_.corner));
    for (const placement::MoveTape& tape : move_.tapes)
      label(at(corners_[tape.from]), input_.label(tape.from));
    label(at(input_.job.plan.center), layout::kCenterLabel);
  }

  void label(At point, const std::string& words) {
    const auto placed = room_.place(point, words, kStrong, all_round(), kLabelReach_pt);
    if (placed) LabelRoom::draw(pen_, *placed);
  }

  drawing::Page& page_;
  Pen pen_;
  Box box_;
  const CorrectionInput& input_;
  const placement::Move& move_;
  LabelRoom room_;
  std::vector<Point> corners_;
  double scale_ = 1.0;  ///< points per meter
  Point middle_;
};

}  // namespace

double draw_move(drawing::Page& page, const Box& box, const CorrectionInput& input,
                 const placement::Move& move) {
  return MovePicture(page, box, input, move).draw();
}

}  // namespace stakewright::forms
