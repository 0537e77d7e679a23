// A hip, common or jack as it lies on the trestles, and how its cuts are set.
#include <algorithm>
#include <array>
#include <cmath>

#include "part_pictures.hpp"
#include "pen.hpp"
#include "picture_sheet.hpp"
#include "plan_marks.hpp"
#include "scale.hpp"

namespace stakewright::forms {
namespace {

using base::Length;
using drawing::At;
using drawing::Box;
using roof::CutName;
using roof::PartKind;

// The shape of a stick, in meters in its own axes: x along the top edge from the middle of the tail
// cut up the slope, y square to it, down

struct StickPoint {
  double x_m = 0.0;
  double y_m = 0.0;
};

/// How far each side of an end stands behind the middle of the top edge, along the stick; below 0
/// before it.  Left and right of somebody at the peak who looks down the stick.
struct EndSides {
  double left_m = 0.0;
  double right_m = 0.0;
};

struct StickShape {
  double line_m = 0.0;
  double tail_m = 0.0;
  double shortening_m = 0.0;
  double overall_m = 0.0;
  double depth_m = 0.0;
  double thickness_m = 0.0;
  double slope_rad = 0.0;
  double heel_m = 0.0;       ///< plumb, top edge to plate
  double notch_m = 0.0;      ///< square to the edge; 0: the stick does not reach the plate
  double tail_lean_m = 0.0;  ///< how far the bottom of the tail cut stands past its top
  EndSides head;
  EndSides tail;

  [[nodiscard]] double apex_m() const { return tail_m + line_m; }
  /// Along the stick, for each meter down it, that a plumb line runs back.
  [[nodiscard]] double plumb_run() const { return std::tan(slope_rad); }
  /// Where the plumb line over the plate line meets the plate.
  [[nodiscard]] StickPoint heel_point() const {
    return {tail_m - heel_m * std::sin(slope_rad), heel_m * std::cos(slope_rad)};
  }
  /// The inner end of the seat.
  [[nodiscard]] StickPoint seat_end() const {
    return {heel_point().x_m + notch_m / std::tan(slope_rad), depth_m};
  }
};

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

/// The shape of a hip, common or jack, with the cuts of `carry`.
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

/// The outline of the side between two places along the stick; `head_m` and `tail_m` move the
/// plumb cut and the tail cut up and down it.  A piece without a notch has none.
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

// The stick on the page, its middle left out when it is long

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

struct StickDrawn {
  Scale scale;
  bool broken = false;  ///< the middle is left out
  double bottom_pt = 0.0;
};

/// Side view with dimensions, and the top edge below it, across the box from its top down.
class StickPlotter {
 public:
  StickPlotter(drawing::Page& page, const Box& box, const StickShape& stick,
               const CutNumbers& numbers, const Voice& voice)
      : page_(page),
        pen_(page),
        stick_(stick),
        numbers_(numbers),
        voice_(voice),
        ruler_(stick, box, voice.units()),
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

  void plumb_line(double x_m, double from_m, double to_m, base::Id words) {
    const double run = stick_.plumb_run();
    const At end = at({x_m - run * to_m, to_m});
    pen_.line(at({x_m - run * from_m, from_m}), end, kMiddleStroke.width_pt, kMiddleStroke.dash_pt);
    pen_.text({end.x_pt, end.y_pt + 3.0 + drawing::cap_height_pt(kText_pt)}, voice_.text(words),
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
    const auto row = [&](double from_m, double to_m, double y_pt, base::Id words, double length_m) {
      draw_level_dimension(page_, ruler_.x_pt(from_m), ruler_.x_pt(to_m), y_pt,
                           voice_.text(Fact{words, {{"length", Length{length_m}}}}),
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
    tail.x_pt = std::max(tail.x_pt - clear_pt, box_.x_pt + kNumberRadius_pt);
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
    pen_.text({box_.x_pt + kLeft_pt, y_pt + 7.0}, voice_.text("pictures.from_above"));
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
  const Voice& voice_;
  Ruler ruler_;
  Box box_;
  double top_pt_ = 0.0;
};

// The page

constexpr double kColumn_pt = 224.0;
constexpr double kGutter_pt = 20.0;

void add_figures(KeyColumn& key, const roof::Part& part, const StickShape& stick) {
  const auto add = [&key](const Fact& name, double length_m) {
    key.add_figure(name, Length{length_m});
  };
  add({"pictures.thickness"}, stick.thickness_m);
  add({"pictures.depth"}, stick.depth_m);
  key.add_figure(Fact{"pictures.slope"}, base::Angle{stick.slope_rad});
  add({"pictures.line_length"}, stick.line_m);
  if (stick.shortening_m > 0.0) add({"pictures.shortening"}, stick.shortening_m);
  add({"pictures.tail_length"}, stick.tail_m);
  add({"pictures.overall"}, stick.overall_m);
  add({"pictures.stick"}, part.stick_m);
  key.skip(5.0);
}

/// The end of a hip: how far its top falls to either side when it is backed.
void draw_backing(drawing::Page& page, const Box& box, const StickShape& stick,
                  const PartInput& input, const roof::Part& part, const std::string& number) {
  const auto cuts = cuts_of(input.carry, part.name(), roof::CutName::backing);
  if (cuts.empty()) return;
  Pen pen(page);
  const Scale scale = scale_for(stick.depth_m, 42.0, input.voice.units());
  const double k = scale.points_per_meter();
  const double half = 0.5 * k * stick.thickness_m;
  const double left = box.x_pt + 6.0;
  const double top = box.y_pt + 18.0;
  const double bottom = top + k * stick.depth_m;
  const double fall_left = half * std::tan(angle_to_cut_rad(*cuts.front()));
  const double fall_right = half * std::tan(angle_to_cut_rad(*cuts.back()));
  pen.text({box.x_pt, box.y_pt + kText_pt}, input.voice.text("pictures.section"));
  page.marks.emplace_back(drawing::Polygon{{{left, top + fall_left},
                                            {left + half, top},
                                            {left + 2.0 * half, top + fall_right},
                                            {left + 2.0 * half, bottom},
                                            {left, bottom}},
                                           drawing::Fill::none,
                                           {1.5, {}}});
  page.marks.emplace_back(drawing::Polyline{{{left, top + fall_left},
                                             {left, top},
                                             {left + 2.0 * half, top},
                                             {left + 2.0 * half, top + fall_right}},
                                            {kThin_pt, {3.0, 2.0}}});
  const double words_x = left + 2.0 * half + 10.0;
  draw_number(page, {words_x + kNumberRadius_pt, top + kNumberRadius_pt}, number);
  const double fall_m = 0.5 * stick.thickness_m * std::tan(angle_to_cut_rad(*cuts.front()));
  pen.cut_text({words_x + 22.0, top + 11.0}, box.right_pt() - words_x - 22.0,
               input.voice.text(Fact{"pictures.fall", {{"length", Length{fall_m}}}}));
}

std::string description(const PartInput& input, const StickShape& stick, const CutList& cuts,
                        const Fact& title) {
  return input.voice.text(Fact{"pictures.rafter_description",
                               {{"part", title},
                                {"line", Length{stick.line_m}},
                                {"shortening", Length{stick.shortening_m}},
                                {"tail", Length{stick.tail_m}},
                                {"overall", Length{stick.overall_m}}}}) +
         cuts.text();
}

}  // namespace

Picture rafter_picture(const PartInput& input, const roof::Part& part, bool by_name) {
  const Voice& voice = input.voice;
  const Fact title = title_of(part, by_name);
  PictureSheet sheet = picture_sheet(input.job, {title, note_on(part, by_name)},
                                     {"pictures.part_foot"}, Lie::sideways, voice, input.paper);
  const Box& body = sheet.body;
  const StickShape stick = stick_shape(input.carry, input.job.roof, part);
  const CutList cuts = rafter_cuts(input, part);
  const StickDrawn drawn = StickPlotter(sheet.page, body, stick, cuts.numbers, voice).draw();
  const double top = drawn.bottom_pt + 10.0;
  const Box column{body.right_pt() - kColumn_pt, top, kColumn_pt, body.bottom_pt() - top};
  draw_cut_list(sheet.page,
                {body.x_pt, top, body.width_pt - kColumn_pt - kGutter_pt, column.height_pt}, cuts);
  KeyColumn key(sheet.page, column, voice);
  key.add_words(words_of(drawn.scale, voice.units()), kStrong);
  if (drawn.broken) key.add_words(Fact{"pictures.broken"});
  add_figures(key, part, stick);
  if (part.kind == PartKind::hip) {
    draw_backing(sheet.page, {column.x_pt, key.y_pt(), column.width_pt, 64.0}, stick, input, part,
                 std::to_string(cuts.cuts.size()));
    key.skip(66.0);
  }
  if (!by_name) add_pieces_like(key, input, part.kind);
  sheet.page.description = description(input, stick, cuts, title);
  return {std::string(name_of(part.kind)), std::move(sheet.page)};
}

}  // namespace stakewright::forms
