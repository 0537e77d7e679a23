#include "plan_key.hpp"

#include <algorithm>
#include <cmath>

#include "key_column.hpp"
#include "pen.hpp"
#include "plan_marks.hpp"

namespace stakewright::forms {
namespace {

void add_sizes(KeyColumn& key, const layout::Plan& plan, const Wording& wording) {
  key.add_words(wording.filled("plan.sides", {{"sides", std::to_string(plan.polygon.sides)},
                                              {"line", plan.measured_to}}),
                kStrong);
  key.add_figure(wording.text("plan.side"), layout::side_m(plan.polygon));
  key.add_figure(wording.text("plan.corner_radius"), plan.polygon.corner_radius_m);
  key.add_figure(wording.text("plan.flat_radius"), layout::flat_radius_m(plan.polygon));
  key.skip(6.0);
}

void add_marks(KeyColumn& key, const job::Job& job, const results::LayoutResult& layout,
               const Drawn& drawn, base::Units units, const Wording& wording) {
  const layout::Plan& plan = job.plan;
  key.add_mark(draw_stake, wording.text("plan.stake"));
  if (!plan.hold.empty()) key.add_mark(draw_held_stake, wording.text("plan.held"));
  key.add_mark(draw_center, wording.text("plan.center"));
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

void add_lines(KeyColumn& key, const results::LayoutResult& layout, base::Units units,
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

void add_outlines(KeyColumn& key, const layout::Plan& plan, const Drawn& drawn,
                  const Wording& wording) {
  for (const std::size_t k : drawn.outlines) {
    if (key.rows_left() < 2) return;
    const layout::KeepClear& area = plan.keep_clear[k];
    key.add_outline(area.name,
                    wording.text(area.keep_inside ? "plan.keep_inside" : "plan.keep_outside"));
  }
}

}  // namespace

void draw_key(drawing::Page& page, const drawing::Box& box, const job::Job& job,
              const results::LayoutResult& layout, const Drawn& drawn, base::Units units,
              const Wording& wording) {
  KeyColumn key(page, box, units, wording);
  key.add_forward_arrow();
  key.add_scale(drawn.scale);
  add_sizes(key, job.plan, wording);
  add_marks(key, job, layout, drawn, units, wording);
  add_lines(key, layout, units, wording);
  add_outlines(key, job.plan, drawn, wording);
}

}  // namespace stakewright::forms
