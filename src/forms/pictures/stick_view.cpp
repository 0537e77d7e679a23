#include "stick_view.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "dimension.hpp"
#include "found_marks.hpp"
#include "pen.hpp"

namespace stakewright::forms {
namespace {

using drawing::At;
using drawing::Box;

/// Left free beside the stick, for the number of the tail cut and for words of short dimensions.
constexpr double kLeft_pt = 36.0;
constexpr double kRight_pt = 124.0;
constexpr double kGap_pt = 22.0;
/// Of the stick shown beyond a cut, so that its number has room.
constexpr double kBesideCut_pt = 44.0;
/// A stick is drawn this deep where the page is wide enough.
constexpr double kDeepest_pt = 62.0;
constexpr double kOutline_pt = 1.5;
const drawing::Stroke kMiddleStroke{kThin_pt, {8.0, 2.0, 2.0, 2.0}};

/// From places along the stick to the page, with the middle left out.
class Ruler {
 public:
  Ruler(const StickShape& stick, const Box& box, base::Units units) {
    const double run = stick.plumb_run();
    from_m_ = std::min({0.0, -stick.tail_lean_m, stick.tail_m - stick.depth_m * run});
    const double ahead = -std::min(stick.head.left_m, stick.head.right_m);
    to_m_ = std::max(stick.apex_m(), stick.overall_m + std::max(0.0, ahead));
    const double behind = std::max({0.0, stick.head.left_m, stick.head.right_m});
    const double room = box.width_pt - kLeft_pt - kRight_pt - kGap_pt;
    const double deep_room_m = stick.depth_m * room / kDeepest_pt;
    const double whole_m = to_m_ - from_m_;
    scale_ = scale_for(std::max(whole_m, deep_room_m), room, units);
    double beside_m = 0.9 * stick.depth_m;
    // A smaller scale needs more of the stick for the numbers beside its cuts.
    constexpr int kPasses = 4;
    for (int pass = 0; pass < kPasses; ++pass) {
      left_end_m_ = std::max(stick.seat_end().x_m, stick.tail_m) + beside_m;
      right_end_m_ = stick.overall_m - behind - stick.depth_m * run - beside_m;
      const double ends_m = (left_end_m_ - from_m_) + (to_m_ - right_end_m_);
      const Scale ends = scale_for(std::max(ends_m, deep_room_m), room, units);
      broken_ = ends.denominator < scale_.denominator && left_end_m_ < right_end_m_;
      if (!broken_ || beside_m * ends.points_per_meter() >= kBesideCut_pt) {
        if (broken_) scale_ = ends;
        break;
      }
      beside_m = kBesideCut_pt / ends.points_per_meter();
      if (pass == kPasses - 1) broken_ = false;
    }
    left_pt_ = box.x_pt + kLeft_pt;
    if (!broken_) left_end_m_ = right_end_m_ = 0.0;
  }

  [[nodiscard]] const Scale& scale() const { return scale_; }
  [[nodiscard]] bool broken() const { return broken_; }
  [[nodiscard]] double along_pt(double length_m) const {
    return length_m * scale_.points_per_meter();
  }
  [[nodiscard]] double x_pt(double x_m) const {
    const double skipped = broken_ && x_m > 0.5 * (left_end_m_ + right_end_m_)
                               ? kGap_pt - along_pt(right_end_m_ - left_end_m_)
                               : 0.0;
    return left_pt_ + along_pt(x_m - from_m_) + skipped;
  }
  [[nodiscard]] double from_m() const { return from_m_; }
  [[nodiscard]] double to_m() const { return to_m_; }
  [[nodiscard]] double left_end_m() const { return left_end_m_; }
  [[nodiscard]] double right_end_m() const { return right_end_m_; }

 private:
  Scale scale_;
  bool broken_ = false;
  double from_m_ = 0.0;
  double to_m_ = 0.0;
  double left_end_m_ = 0.0;
  double right_end_m_ = 0.0;
  double left_pt_ = 0.0;
};

class StickPlotter {
 public:
  StickPlotter(drawing::Page& page, const Box& box, const StickShape& stick,
               const CutNumbers& numbers, base::Units units, const Wording& wording)
      : page_(page),
        pen_(page),
        stick_(stick),
        numbers_(numbers),
        units_(units),
        wording_(wording),
        ruler_(stick, box, units),
        box_(box) {}

  StickDrawn draw() {
    top_pt_ = box_.y_pt + 3.0 * kDimensionRow_pt + 10.0;
    draw_side();
    draw_plumb_lines();
    draw_dimensions();
    number_side();
    const double below = top_pt_ + depth_pt() + 34.0;
    draw_top_edge(below);
    return {ruler_.scale(), ruler_.broken(),
            below + 15.0 + ruler_.along_pt(stick_.thickness_m) + 8.0};
  }

 private:
  [[nodiscard]] double depth_pt() const { return ruler_.along_pt(stick_.depth_m); }
  [[nodiscard]] At at(StickPoint p) const {
    return {ruler_.x_pt(p.x_m), top_pt_ + ruler_.along_pt(p.y_m)};
  }

  /// A piece of the outline, without the edges along which the middle was taken out.
  void draw_outline(const std::vector<StickPoint>& outline, double width_pt) {
    for (std::size_t i = 0; i < outline.size(); ++i) {
      const StickPoint& one = outline[i];
      const StickPoint& other = outline[(i + 1) % outline.size()];
      const bool at_break = ruler_.broken() && one.x_m == other.x_m &&
                            (one.x_m == ruler_.left_end_m() || one.x_m == ruler_.right_end_m());
      if (!at_break) pen_.line(at(one), at(other), width_pt);
    }
  }

  /// The line where the middle is left out.
  void draw_break(double x_pt, double from_pt, double to_pt) {
    const double middle = 0.5 * (from_pt + to_pt);
    constexpr double kOver_pt = 5.0;
    constexpr double kZig_pt = 4.0;
    page_.marks.emplace_back(drawing::Polyline{{{x_pt, from_pt - kOver_pt},
                                                {x_pt, middle - kZig_pt},
                                                {x_pt - kZig_pt, middle - kZig_pt / 2.0},
                                                {x_pt + kZig_pt, middle + kZig_pt / 2.0},
                                                {x_pt, middle + kZig_pt},
                                                {x_pt, to_pt + kOver_pt}},
                                               {kRule_pt, {}}});
  }

  void draw_breaks(double from_pt, double to_pt) {
    if (!ruler_.broken()) return;
    draw_break(ruler_.x_pt(ruler_.left_end_m()), from_pt, to_pt);
    draw_break(ruler_.x_pt(ruler_.right_end_m()), from_pt, to_pt);
  }

  void draw_side() {
    const double ahead = std::min(std::min(stick_.head.left_m, stick_.head.right_m), 0.0);
    const double head_m = stick_.overall_m - ahead;
    const auto piece = [&](double from_m, double to_m) {
      draw_outline(side_outline(stick_, head_m, 0.0, from_m, to_m), kOutline_pt);
    };
    if (ruler_.broken()) {
      piece(ruler_.from_m() - stick_.depth_m, ruler_.left_end_m());
      piece(ruler_.right_end_m(), ruler_.to_m() + stick_.depth_m);
    } else {
      piece(ruler_.from_m() - stick_.depth_m, ruler_.to_m() + stick_.depth_m);
    }
    draw_breaks(top_pt_, top_pt_ + depth_pt());
    // With its tail on the left the stick shows its left side; the right one is hidden.
    const double run = stick_.plumb_run();
    const double lean = stick_.tail_lean_m / stick_.depth_m;
    if (stick_.head.left_m > 0.0) {
      edge_line(stick_.overall_m - stick_.head.left_m, run, {});
    } else if (stick_.head.right_m > 0.0) {
      edge_line(stick_.overall_m - stick_.head.right_m, run, {3.0, 2.0});
    }
    if (stick_.tail.left_m > 0.0) edge_line(stick_.tail.left_m, lean, {});
  }

  /// The edge between side and cut face, from the top edge down.
  void edge_line(double x_m, double run, const std::vector<double>& dash_pt) {
    pen_.line(at({x_m, 0.0}), at({x_m - stick_.depth_m * run, stick_.depth_m}), kRule_pt, dash_pt);
  }

  void plumb_line(double x_m, double from_m, double to_m, const char* key) {
    const double run = stick_.plumb_run();
    const At end = at({x_m - run * to_m, to_m});
    pen_.line(at({x_m - run * from_m, from_m}), end, kMiddleStroke.width_pt, kMiddleStroke.dash_pt);
    pen_.text({end.x_pt, end.y_pt + 3.0 + drawing::cap_height_pt(kText_pt)}, wording_.text(key),
              {.anchor = drawing::Anchor::middle});
  }

  void draw_plumb_lines() {
    const double below_m = stick_.depth_m + 8.0 / ruler_.scale().points_per_meter();
    plumb_line(stick_.tail_m, 0.0, below_m, "pictures.plate_line");
    plumb_line(stick_.apex_m(), 0.0, below_m, "pictures.peak_line");
  }

  void draw_dimensions() {
    const double overall_y = top_pt_ - 3.0 * kDimensionRow_pt;
    const double tail_y = top_pt_ - 2.0 * kDimensionRow_pt;
    const double line_y = top_pt_ - kDimensionRow_pt;
    const double last_pt = ruler_.x_pt(std::max(stick_.apex_m(), stick_.overall_m));
    const auto row = [&](double from_m, double to_m, double y_pt, const char* key,
                         double length_m) {
      draw_level_dimension(
          page_, ruler_.x_pt(from_m), ruler_.x_pt(to_m), y_pt,
          wording_.filled(key, {{"length", base::text_from_length(length_m, units_)}}),
          {ruler_.x_pt(stick_.overall_m), last_pt});
    };
    const auto extension = [&](double x_m, double to_pt) {
      draw_extension(page_, ruler_.x_pt(x_m), top_pt_ - 3.0, to_pt - 5.0);
    };
    row(0.0, stick_.overall_m, overall_y, "pictures.overall_dimension", stick_.overall_m);
    if (stick_.tail_m > 0.0)
      row(0.0, stick_.tail_m, tail_y, "pictures.tail_dimension", stick_.tail_m);
    row(stick_.tail_m, stick_.apex_m(), line_y, "pictures.line_dimension", stick_.line_m);
    extension(0.0, overall_y);
    extension(stick_.tail_m, tail_y);
    extension(stick_.overall_m, overall_y);
    if (stick_.shortening_m <= 0.0) return;
    extension(stick_.apex_m(), overall_y);
    row(stick_.overall_m, stick_.apex_m(), overall_y, "pictures.shortening_dimension",
        stick_.shortening_m);
  }

  void number(At middle, const std::string& words) {
    if (!words.empty()) draw_number(page_, middle, words);
  }

  void number_side() {
    const double run = stick_.plumb_run();
    const double half_m = 0.5 * stick_.depth_m;
    // Clear of a plumb line, the further the flatter it lies along the stick.
    const double clear_pt = 4.0 + 10.0 * std::hypot(1.0, run);
    const double behind = std::max({stick_.head.left_m, stick_.head.right_m, 0.0});
    At plumb = at({stick_.overall_m - behind - half_m * run, half_m});
    plumb.x_pt -= clear_pt;
    number(plumb, numbers_.plumb);
    // Left of the cut, and of the plumb line over the plate where the tail is short.
    const double plate_m = stick_.tail_m - half_m * run;
    At tail = at({std::min(-0.5 * stick_.tail_lean_m, plate_m), half_m});
    tail.x_pt = std::max(tail.x_pt - clear_pt, box_.x_pt + kSuspectRadius_pt);
    number(tail, numbers_.tail);
    At seat = at({std::max(stick_.tail_m, stick_.seat_end().x_m), half_m});
    seat.x_pt += 16.0;
    if (!ruler_.broken() && ruler_.along_pt(plate_m) > 2.0 * clear_pt + 16.0) {
      seat = at({plate_m, half_m});
      seat.x_pt -= clear_pt;
    }
    number(seat, numbers_.seat);
  }

  /// The top edge from above: its left side, which the side view shows, is the lower one.
  void draw_top_edge(double y_pt) {
    pen_.text({box_.x_pt + kLeft_pt, y_pt + 7.0}, wording_.text("pictures.from_above"));
    const double top = y_pt + 15.0;
    const double middle = top + ruler_.along_pt(0.5 * stick_.thickness_m);
    const double bottom = top + ruler_.along_pt(stick_.thickness_m);
    const double tail_left = ruler_.x_pt(stick_.tail.left_m);
    const double tail_right = ruler_.x_pt(stick_.tail.right_m);
    const double head_left = ruler_.x_pt(stick_.overall_m - stick_.head.left_m);
    const double head_right = ruler_.x_pt(stick_.overall_m - stick_.head.right_m);
    const double tail = ruler_.x_pt(0.0);
    const double head = ruler_.x_pt(stick_.overall_m);
    const auto edge = [&](double from, double to, double y) {
      if (!ruler_.broken()) return pen_.line({from, y}, {to, y}, kOutline_pt);
      pen_.line({from, y}, {ruler_.x_pt(ruler_.left_end_m()), y}, kOutline_pt);
      pen_.line({ruler_.x_pt(ruler_.right_end_m()), y}, {to, y}, kOutline_pt);
    };
    edge(tail_right, head_right, top);
    edge(tail_left, head_left, bottom);
    page_.marks.emplace_back(drawing::Polyline{
        {{tail_right, top}, {tail, middle}, {tail_left, bottom}}, {kOutline_pt, {}}});
    page_.marks.emplace_back(drawing::Polyline{
        {{head_right, top}, {head, middle}, {head_left, bottom}}, {kOutline_pt, {}}});
    draw_breaks(top, bottom);
    pen_.line({tail, middle}, {head, middle}, kMiddleStroke.width_pt, kMiddleStroke.dash_pt);
    number({std::max({head, head_left, head_right}) + 14.0, middle}, numbers_.cheek);
  }

  drawing::Page& page_;
  Pen pen_;
  const StickShape& stick_;
  const CutNumbers& numbers_;
  base::Units units_;
  const Wording& wording_;
  Ruler ruler_;
  Box box_;
  double top_pt_ = 0.0;
};

}  // namespace

StickDrawn draw_stick(drawing::Page& page, const Box& box, const StickShape& stick,
                      const CutNumbers& numbers, base::Units units, const Wording& wording) {
  return StickPlotter(page, box, stick, numbers, units, wording).draw();
}

}  // namespace stakewright::forms
