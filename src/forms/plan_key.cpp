#include "plan_key.hpp"

#include <algorithm>
#include <cmath>

#include "pen.hpp"
#include "plan_marks.hpp"

namespace stakewright::forms {
namespace {

using drawing::At;
using drawing::Box;

constexpr double kRow_pt = 15.0;
constexpr double kSample_pt = 28.0;

class Key {
 public:
  Key(drawing::Page& page, const Box& box, base::Units units, const Wording& wording)
      : page_(page), pen_(page), box_(box), units_(units), wording_(wording), y_(box.y_pt) {}

  void add_forward_arrow() {
    constexpr double kTall_pt = 40.0;
    const double x = box_.x_pt + 9.0;
    pen_.line({x, y_ + kTall_pt}, {x, y_ + 10.0}, 2.0);
    page_.marks.emplace_back(drawing::Polygon{
        {{x, y_}, {x + 7.0, y_ + 14.0}, {x - 7.0, y_ + 14.0}}, drawing::Fill::black, {0.0, {}}});
    pen_.in_box({x + 12.0, y_, box_.width_pt - 21.0, 20.0}, wording_.text("plan.forward"), kStrong);
    y_ += kTall_pt + 8.0;
  }

  void add_scale(const Scale& scale) {
    add_words(wording_.filled("plan.scale", {{"scale", scale.words}}), kStrong);
    const double length_m = bar_length_m(scale, box_.width_pt - 50.0, units_);
    const double length_pt = length_m * scale.points_per_metre();
    const double left = box_.x_pt + 4.0;
    const double bar_y = y_ + 8.0;
    // A black and a white half, with feet that a rule can be laid to.
    pen_.black_box({left, bar_y - 2.0, length_pt / 2.0, 4.0});
    pen_.box({left, bar_y - 2.0, length_pt, 4.0});
    for (const double end : {left, left + length_pt})
      pen_.line({end, bar_y - 6.0}, {end, bar_y + 6.0});
    pen_.text({left + length_pt + 6.0, bar_y + 4.0}, base::text_from_length(length_m, units_));
    y_ += 20.0;
    y_ += pen_.paragraph({box_.x_pt, y_}, box_.width_pt,
                         wording_.filled("plan.bar", {{"length", on_paper(length_pt)}}));
    y_ += 6.0;
  }

  void add_words(const std::string& words, const Style& style = kPlain) {
    pen_.cut_text({box_.x_pt, y_ + kText_pt}, box_.width_pt, words, style);
    y_ += kRow_pt;
  }

  void add_figure(const std::string& name, double length_m) {
    const std::string figure = base::text_from_length(length_m, units_);
    const double figure_width = width_pt(figure, kStrong);
    pen_.cut_text({box_.x_pt, y_ + kText_pt}, box_.width_pt - figure_width - 6.0, name);
    pen_.text({box_.right_pt(), y_ + kText_pt}, figure,
              {.weight = drawing::Weight::bold, .anchor = drawing::Anchor::end});
    y_ += kRow_pt;
  }

  /// A sample of a line, what it is, and a length that is never cut.
  void add_line(const drawing::Stroke& stroke, const std::string& name,
                const std::string& length = "") {
    const double y = sample_y();
    pen_.line({box_.x_pt, y}, {box_.x_pt + kSample_pt, y}, stroke.width_pt, stroke.dash_pt);
    add_meaning(name, length);
  }

  void add_string(const std::string& name, const std::string& length) {
    const double y = sample_y();
    pen_.line({box_.x_pt, y - 5.0}, {box_.x_pt, y + 5.0}, 2.0);
    add_line({kThin_pt, {}}, name, length);
  }

  void add_pointer(const std::string& name) {
    draw_pointer(page_, {box_.x_pt + kSample_pt / 2.0, sample_y()}, {1.0, 0.0});
    add_meaning(name, "");
  }

  void add_outline(const std::string& name, const std::string& rule) {
    add_line(outline_stroke(), name);
    add_meaning(rule, "");
  }

  void add_mark(void (*draw)(drawing::Page&, At), const std::string& name) {
    draw(page_, {box_.x_pt + kSample_pt / 2.0, sample_y()});
    add_meaning(name, "");
  }

  [[nodiscard]] std::size_t rows_left() const {
    return static_cast<std::size_t>(std::max(0.0, std::floor((box_.bottom_pt() - y_) / kRow_pt)));
  }

  void skip(double by_pt) { y_ += by_pt; }

 private:
  /// In the middle of the capitals of the row.
  [[nodiscard]] double sample_y() const {
    return y_ + kText_pt - drawing::cap_height_pt(kText_pt) / 2.0;
  }

  void add_meaning(const std::string& name, const std::string& length) {
    const double left = box_.x_pt + kSample_pt + 8.0;
    const double taken = length.empty() ? 0.0 : width_pt(length) + 6.0;
    pen_.cut_text({left, y_ + kText_pt}, box_.right_pt() - taken - left, name);
    if (!length.empty()) pen_.text({box_.right_pt(), y_ + kText_pt}, length, kToTheRight);
    y_ += kRow_pt;
  }

  [[nodiscard]] std::string on_paper(double length_pt) const {
    return base::text_from_small_length(length_pt / drawing::kPointsPerMetre, units_);
  }

  drawing::Page& page_;
  Pen pen_;
  Box box_;
  base::Units units_;
  const Wording& wording_;
  double y_;
};

void add_sizes(Key& key, const layout::Plan& plan, const Wording& wording) {
  key.add_words(wording.filled("plan.sides", {{"sides", std::to_string(plan.polygon.sides)},
                                              {"line", plan.measured_to}}),
                kStrong);
  key.add_figure(wording.text("plan.side"), layout::side_m(plan.polygon));
  key.add_figure(wording.text("plan.corner_radius"), plan.polygon.corner_radius_m);
  key.add_figure(wording.text("plan.flat_radius"), layout::flat_radius_m(plan.polygon));
  key.skip(6.0);
}

void add_marks(Key& key, const job::Job& job, const job::LayoutResult& layout, const Drawn& drawn,
               base::Units units, const Wording& wording) {
  const layout::Plan& plan = job.plan;
  key.add_mark(draw_stake, wording.text("plan.stake"));
  if (!plan.hold.empty()) key.add_mark(draw_held_stake, wording.text("plan.held"));
  key.add_mark(draw_centre, wording.text("plan.centre"));
  if (!plan.pins.empty()) key.add_mark(draw_pin, wording.text("plan.pin"));
  if (drawn.points_at_pins) key.add_pointer(wording.text("plan.pin_beyond"));
  if (drawn.baseline) key.add_mark(draw_baseline_sample, wording.text("plan.baseline"));
  key.add_line(plan_line_stroke(), wording.text("plan.plan_line"));
  if (drawn.strings) {
    key.add_string(wording.text("plan.string"),
                   base::text_from_length(layout.strings.front().setback_m, units));
  }
}

/// A key of the job file as it is said: `slab_edge`, slab edge.
std::string spoken(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

void add_lines(Key& key, const job::LayoutResult& layout, base::Units units,
               const Wording& wording) {
  for (std::size_t i = 0; i < layout.lines.size(); ++i) {
    const std::size_t left = layout.lines.size() - i;
    if (key.rows_left() <= 1 && left > key.rows_left()) {
      if (key.rows_left() == 1)
        key.add_words(wording.filled("plan.more_lines", {{"count", std::to_string(left)}}));
      return;
    }
    const layout::LineFigures& line = layout.lines[i];
    const std::string distance = base::text_from_length(std::abs(line.offset_m), units);
    const char* words = line.offset_m < 0.0 ? "plan.inward" : "plan.outward";
    key.add_line(line_stroke(i), spoken(line.name),
                 wording.filled(words, {{"distance", distance}}));
  }
}

void add_outlines(Key& key, const layout::Plan& plan, const Drawn& drawn, const Wording& wording) {
  for (const std::size_t k : drawn.outlines) {
    if (key.rows_left() < 2) return;
    const layout::KeepClear& area = plan.keep_clear[k];
    key.add_outline(area.name,
                    wording.text(area.keep_inside ? "plan.keep_inside" : "plan.keep_outside"));
  }
}

}  // namespace

void draw_key(drawing::Page& page, const Box& box, const job::Job& job,
              const job::LayoutResult& layout, const Drawn& drawn, base::Units units,
              const Wording& wording) {
  Key key(page, box, units, wording);
  key.add_forward_arrow();
  key.add_scale(drawn.scale);
  add_sizes(key, job.plan, wording);
  add_marks(key, job, layout, drawn, units, wording);
  add_lines(key, layout, units, wording);
  add_outlines(key, job.plan, drawn, wording);
}

}  // namespace stakewright::forms
