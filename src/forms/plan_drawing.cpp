#include "plan_drawing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include "key_column.hpp"
#include "label_room.hpp"
#include "pen.hpp"
#include "pictures/picture_sheet.hpp"
#include "plan_marks.hpp"
#include "scale.hpp"

namespace stakewright::forms {
namespace {

using base::Fact;
using base::Length;
using base::Name;
using base::Point;
using drawing::At;
using drawing::Box;

/// With more sides, strings would hide the plan; the sheet leaves them to the command's table.
constexpr int kMostSidesWithStrings = 12;

/// What a drawing shows, for the key beside it.
struct Drawn {
  Scale scale;
  bool strings = false;
  bool baseline = false;
  bool points_at_pins = false;        ///< some pins lie beyond the drawing
  std::vector<std::size_t> outlines;  ///< places in the plan's `keep_clear`
};

constexpr double kBoardHalf_pt = 6.0;
constexpr double kReach_pt = 84.0;
constexpr double kFarthestReach_pt = 150.0;

const drawing::Stroke kRadiusStroke{kThin_pt, {10.0, 2.5, 2.0, 2.5}};

bool is_inside(At at, const Box& box) {
  return at.x_pt >= box.x_pt && at.x_pt <= box.right_pt() && at.y_pt >= box.y_pt &&
         at.y_pt <= box.bottom_pt();
}

/// The state of one drawing: what is on it and where labels may still go.
class Plotter {
 public:
  Plotter(drawing::Page& page, const Box& box, const job::Job& job,
          const results::LayoutResult& layout, const Voice& voice)
      : page_(page),
        pen_(page),
        box_(box),
        plan_(job.plan),
        layout_(layout),
        voice_(voice),
        with_strings_(job.plan.polygon.sides <= kMostSidesWithStrings),
        view_(view_of_plan(job.plan, layout, with_strings_, box, voice.units())),
        corners_(layout::stakes(job.plan)),
        room_(box),
        drawn_{view_.scale, with_strings_ && !layout.strings.empty(), false, false, {}} {}

  Drawn draw() {
    draw_outlines();
    draw_lines();
    if (with_strings_) draw_strings();
    draw_baseline();
    const auto radii = draw_radii();
    draw_stakes();
    draw_pins();
    label_pins();
    label_stakes();
    label_dimensions(radii);
    return drawn_;
  }

 private:
  struct Dimension {
    Segment line;
    double length_m = 0.0;
  };

  void stroke(const Segment& segment, const drawing::Stroke& stroke) {
    pen_.line(segment.from, segment.to, stroke.width_pt, stroke.dash_pt);
    room_.keep_off(segment);
  }

  void ring(const std::vector<Point>& corners, const drawing::Stroke& stroke) {
    drawing::Polygon polygon{{}, drawing::Fill::none, stroke};
    for (const Point& corner : corners) polygon.points.push_back(view_.at(corner));
    for (std::size_t i = 0; i < polygon.points.size(); ++i)
      room_.keep_off(Segment{polygon.points[i], polygon.points[(i + 1) % polygon.points.size()]});
    page_.marks.emplace_back(std::move(polygon));
  }

  void draw_outlines() {
    for (std::size_t k = 0; k < plan_.keep_clear.size(); ++k) {
      const layout::KeepClear& area = plan_.keep_clear[k];
      const std::size_t count = area.outline.size();
      bool shows = false;
      for (std::size_t i = 0; i < count; ++i) {
        const Segment whole{view_.at(area.outline[i]), view_.at(area.outline[(i + 1) % count])};
        if (const auto part = clipped(whole, box_)) {
          stroke(*part, outline_stroke());
          shows = true;
        }
      }
      if (shows) drawn_.outlines.push_back(k);
    }
  }

  void draw_lines() {
    for (std::size_t i = 0; i < layout_.lines.size(); ++i)
      ring(layout_.lines[i].corners, line_stroke(i));
    ring(layout::corners_of(plan_.polygon, plan_), plan_line_stroke());
  }

  void draw_strings() {
    for (std::size_t i = 0; i < layout_.strings.size(); ++i) {
      const layout::String& string = layout_.strings[i];
      const Point first = corners_[i].at;
      const Point second = corners_[(i + 1) % corners_.size()].at;
      draw_string_end(first, string.nail_before);
      draw_string_end(second, string.nail_after);
    }
  }

  void draw_string_end(Point corner, Point nail) {
    const At board = view_.at(nail);
    stroke({view_.at(corner), board}, {kThin_pt, {}});
    const Direction across = turned(paper_direction(nail - corner), std::numbers::pi / 2.0);
    const At one{board.x_pt + kBoardHalf_pt * across.x, board.y_pt + kBoardHalf_pt * across.y};
    const At other{board.x_pt - kBoardHalf_pt * across.x, board.y_pt - kBoardHalf_pt * across.y};
    stroke({one, other}, {2.0, {}});
  }

  /// Two known pins, or two stakes that are not to move; none when there is neither.
  [[nodiscard]] std::optional<Segment> baseline() const {
    const auto place_of = [&](const std::string& label) {
      return std::find_if(corners_.begin(), corners_.end(),
                          [&](const layout::Stake& corner) { return corner.label == label; })
          ->at;
    };
    if (plan_.pins.size() >= 2)
      return clipped({view_.at(plan_.pins[0].at), view_.at(plan_.pins[1].at)}, box_);
    if (plan_.hold.size() < 2) return std::nullopt;
    constexpr double kBeyond_pt = 16.0;
    const At from = view_.at(place_of(plan_.hold[0]));
    const At to = view_.at(place_of(plan_.hold[1]));
    const double length = std::hypot(to.x_pt - from.x_pt, to.y_pt - from.y_pt);
    const Direction along{(to.x_pt - from.x_pt) / length, (to.y_pt - from.y_pt) / length};
    const auto beyond = [&](At end, double by) {
      return At{end.x_pt + by * along.x, end.y_pt + by * along.y};
    };
    return clipped({beyond(from, -kBeyond_pt), beyond(to, kBeyond_pt)}, box_);
  }

  void draw_baseline() {
    const auto line = baseline();
    if (!line) return;
    for (const Segment& rail : rails(*line)) stroke(rail, {kThin_pt, {}});
    drawn_.baseline = true;
  }

  /// A corner radius away from side A-B, and the flat radius of that side.
  std::array<Dimension, 2> draw_radii() {
    const At center = view_.at(plan_.center);
    const Point corner = corners_[corners_.size() / 2].at;
    const Point flat = 0.5 * (corners_[0].at + corners_[1].at);
    const std::array<Dimension, 2> radii{
        {{{center, view_.at(corner)}, plan_.polygon.corner_radius_m},
         {{center, view_.at(flat)}, layout::flat_radius_m(plan_.polygon)}}};
    for (const Dimension& radius : radii) stroke(radius.line, kRadiusStroke);
    return radii;
  }

  [[nodiscard]] bool is_held(const std::string& label) const {
    return std::find(plan_.hold.begin(), plan_.hold.end(), label) != plan_.hold.end();
  }

  void draw_stakes() {
    for (const layout::Stake& corner : corners_) {
      const At at = view_.at(corner.at);
      if (is_held(corner.label)) {
        draw_held_stake(page_, at);
        room_.keep_off(around(at, kHeldHalf_pt + 1.0));
      } else {
        draw_stake(page_, at);
        room_.keep_off(around(at, kStakeRadius_pt + 1.0));
      }
    }
    const At center = view_.at(plan_.center);
    draw_center(page_, center);
    room_.keep_off(around(center, kCenterReach_pt));
  }

  [[nodiscard]] Style label_style() const {
    const int sides = plan_.polygon.sides;
    const double size = sides <= 12 ? 14.0 : sides <= 24 ? 12.0 : kText_pt;
    return {.size_pt = size, .weight = drawing::Weight::bold};
  }

  /// Directions to try for a corner's label, from the plan line outward or inward.
  enum class Toward { outside, inside, anywhere };

  [[nodiscard]] std::vector<Direction> directions(const layout::Stake& corner,
                                                  Toward toward) const {
    const Direction out = paper_direction(corner.at - plan_.center);
    if (toward == Toward::outside) return fan(out);
    auto directions = fan(back(out));
    if (toward == Toward::inside) return directions;
    for (const Direction& direction : fan(out)) directions.push_back(direction);
    for (const Direction& direction : all_round()) directions.push_back(direction);
    return directions;
  }

  /// Labels for all corners, as many as find room.
  std::vector<PlacedLabel> labels_for_corners(LabelRoom& room, Toward toward,
                                              double reach_pt) const {
    std::vector<PlacedLabel> labels;
    for (const layout::Stake& corner : corners_) {
      const auto label = room.place(view_.at(corner.at), corner.label, label_style(),
                                    directions(corner, toward), reach_pt);
      if (label) labels.push_back(*label);
    }
    return labels;
  }

  /// All outside and near, else all inside and near, else tied by leaders, at last anywhere.
  void label_stakes() {
    struct Way {
      Toward toward;
      double reach_pt;
    };
    constexpr std::array<Way, 5> kWays{{{Toward::outside, kWithoutLeader_pt},
                                        {Toward::inside, kWithoutLeader_pt},
                                        {Toward::inside, kReach_pt},
                                        {Toward::outside, kReach_pt},
                                        {Toward::anywhere, kFarthestReach_pt}}};
    for (const Way& way : kWays) {
      LabelRoom attempt = room_;
      const auto labels = labels_for_corners(attempt, way.toward, way.reach_pt);
      if (labels.size() < corners_.size() && way.toward != Toward::anywhere) continue;
      room_ = attempt;
      for (const PlacedLabel& label : labels) LabelRoom::draw(pen_, label);
      break;
    }
    label(view_.at(plan_.center), layout::kCenterLabel, label_style(), all_round());
  }

  void label(At at, const std::string& words, const Style& style,
             const std::vector<Direction>& directions) {
    const auto placed = room_.place(at, words, style, directions, kReach_pt);
    if (placed) LabelRoom::draw(pen_, *placed);
  }

  /// Pins beyond the drawing are pointed at from its edge.
  void draw_pins() {
    constexpr double kInside_pt = 10.0;
    const Box inner{box_.x_pt + kInside_pt, box_.y_pt + kInside_pt,
                    box_.width_pt - 2.0 * kInside_pt, box_.height_pt - 2.0 * kInside_pt};
    for (const layout::Pin& pin : plan_.pins) {
      const At at = view_.at(pin.at);
      if (is_inside(at, inner)) {
        draw_pin(page_, at);
        pins_.push_back(at);
      } else {
        const auto inside = clipped({view_.center, at}, inner);
        pins_.push_back(inside->to);
        draw_pointer(page_, inside->to, paper_direction(pin.at - view_.middle));
        drawn_.points_at_pins = true;
      }
      room_.keep_off(around(pins_.back(), kPinReach_pt));
    }
  }

  void label_pins() {
    for (std::size_t i = 0; i < pins_.size(); ++i)
      label(pins_[i], plan_.pins[i].name, kStrong, all_round());
  }

  /// Beside its line; left to the key when there is no room.
  void label_dimension(const Dimension& dimension) {
    const std::string words = voice_.text(Length{dimension.length_m});
    if (const auto placed = room_.place_beside(dimension.line, words, kPlain))
      LabelRoom::draw(pen_, *placed);
  }

  void label_dimensions(const std::array<Dimension, 2>& radii) {
    const Dimension side{{view_.at(corners_[0].at), view_.at(corners_[1].at)},
                         layout::side_m(plan_.polygon)};
    label_dimension(side);
    for (const Dimension& radius : radii) label_dimension(radius);
  }

  drawing::Page& page_;
  Pen pen_;
  Box box_;
  const layout::Plan& plan_;
  const results::LayoutResult& layout_;
  const Voice& voice_;
  bool with_strings_;
  PlanView view_;
  std::vector<layout::Stake> corners_;
  LabelRoom room_;
  std::vector<At> pins_;  ///< where each pin, or the pointer to it, is drawn
  Drawn drawn_;
};

// The key

void add_sizes(KeyColumn& key, const layout::Plan& plan) {
  const base::Count sides{static_cast<std::size_t>(plan.polygon.sides)};
  key.add_words(Fact{"plan.sides", {{"sides", sides}, {"line", Name{plan.measured_to}}}}, kStrong);
  key.add_figure(Fact{"plan.side"}, Length{layout::side_m(plan.polygon)});
  key.add_figure(Fact{"plan.corner_radius"}, Length{plan.polygon.corner_radius_m});
  key.add_figure(Fact{"plan.flat_radius"}, Length{layout::flat_radius_m(plan.polygon)});
  key.skip(6.0);
}

void draw_pointer_sample(drawing::Page& page, At at) { draw_pointer(page, at, {1.0, 0.0}); }

void add_marks(KeyColumn& key, const job::Job& job, const results::LayoutResult& layout,
               const Drawn& drawn) {
  key.add_mark(draw_stake, Fact{"plan.stake"});
  if (!job.plan.hold.empty()) key.add_mark(draw_held_stake, Fact{"plan.held"});
  key.add_mark(draw_center, Fact{"plan.center"});
  if (!job.plan.pins.empty()) key.add_mark(draw_pin, Fact{"plan.pin"});
  if (drawn.points_at_pins) key.add_mark(draw_pointer_sample, Fact{"plan.pin_beyond"});
  if (drawn.baseline) key.add_mark(draw_baseline_sample, Fact{"plan.baseline"});
  key.add_line(plan_line_stroke(), Fact{"plan.plan_line"});
  if (drawn.strings) key.add_string(Fact{"plan.string"}, Length{layout.strings.front().setback_m});
}

/// A key of the job file as it is said: `slab_edge`, slab edge.
Name spoken(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return {std::move(name)};
}

void add_lines(KeyColumn& key, const results::LayoutResult& layout) {
  for (std::size_t i = 0; i < layout.lines.size(); ++i) {
    const std::size_t left = layout.lines.size() - i;
    if (key.rows_left() <= 1 && left > key.rows_left()) {
      if (key.rows_left() == 1)
        key.add_words(Fact{"plan.more_lines", {{"count", base::Count{left}}}});
      return;
    }
    const layout::LineFigures& line = layout.lines[i];
    key.add_line(line_stroke(i), spoken(line.name),
                 base::Directed{base::Way::out, Length{line.offset_m}});
  }
}

void add_outlines(KeyColumn& key, const layout::Plan& plan, const Drawn& drawn) {
  for (const std::size_t k : drawn.outlines) {
    if (key.rows_left() < 2) return;
    const layout::KeepClear& area = plan.keep_clear[k];
    key.add_outline(Name{area.name},
                    area.keep_inside ? Fact{"plan.keep_inside"} : Fact{"plan.keep_outside"});
  }
}

}  // namespace

void draw_plan(drawing::Page& page, const Box& box, const job::Job& job,
               const results::LayoutResult& layout, const Voice& voice) {
  constexpr double kGutter_pt = 18.0;
  constexpr double kKeyWidth_pt = 178.0;
  const Box plan{box.x_pt, box.y_pt, box.width_pt - kKeyWidth_pt - kGutter_pt, box.height_pt};
  const Drawn drawn = Plotter(page, plan, job, layout, voice).draw();
  KeyColumn key(page, {plan.right_pt() + kGutter_pt, box.y_pt, kKeyWidth_pt, box.height_pt}, voice);
  key.add_forward_arrow();
  key.add_scale(drawn.scale);
  add_sizes(key, job.plan);
  add_marks(key, job, layout, drawn);
  add_lines(key, layout);
  add_outlines(key, job.plan, drawn);
}

std::vector<Picture> plan_pictures(const job::Job& job, const results::LayoutResult& layout,
                                   const Voice& voice, Paper paper) {
  PictureSheet sheet = picture_sheet(job, {Fact{"plan.tab"}, fingerprint_note(job)},
                                     {"pictures.plan_foot"}, Lie::sideways, voice, paper);
  const layout::Plan& plan = job.plan;
  const auto labels = layout::corner_labels(plan.polygon.sides);
  sheet.page.description = voice.text(Fact{"pictures.plan_description",
                                           {{"sides", base::Count{labels.size()}},
                                            {"line", Name{plan.measured_to}},
                                            {"first", Name{labels.front()}},
                                            {"last", Name{labels.back()}},
                                            {"side", Length{layout::side_m(plan.polygon)}},
                                            {"radius", Length{plan.polygon.corner_radius_m}}}});
  draw_plan(sheet.page, sheet.body, job, layout, voice);
  return {{"plan", std::move(sheet.page)}};
}

}  // namespace stakewright::forms
