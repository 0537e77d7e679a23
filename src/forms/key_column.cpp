#include "key_column.hpp"

#include <algorithm>
#include <cmath>

namespace stakewright::forms {
namespace {

using drawing::At;
using drawing::Box;

constexpr double kRow_pt = 15.0;
constexpr double kSample_pt = 28.0;

}  // namespace

void KeyColumn::add_forward_arrow() {
  constexpr double kTall_pt = 40.0;
  const double x = box_.x_pt + 9.0;
  pen_.line({x, y_ + kTall_pt}, {x, y_ + 10.0}, 2.0);
  page_.marks.emplace_back(drawing::Polygon{
      {{x, y_}, {x + 7.0, y_ + 14.0}, {x - 7.0, y_ + 14.0}}, drawing::Fill::black, {0.0, {}}});
  pen_.in_box({x + 12.0, y_, box_.width_pt - 21.0, 20.0}, wording_.text("plan.forward"), kStrong);
  y_ += kTall_pt + 8.0;
}

void KeyColumn::add_bar(double length_pt, const std::string& words) {
  const double left = box_.x_pt + 4.0;
  const double bar_y = y_ + 8.0;
  // A black and a white half, with feet that a rule can be laid to.
  pen_.black_box({left, bar_y - 2.0, length_pt / 2.0, 4.0});
  pen_.box({left, bar_y - 2.0, length_pt, 4.0});
  for (const double end : {left, left + length_pt})
    pen_.line({end, bar_y - 6.0}, {end, bar_y + 6.0});
  pen_.text({left + length_pt + 6.0, bar_y + 4.0}, words);
  y_ += 20.0;
}

void KeyColumn::add_scale(const Scale& scale) {
  add_words(wording_.filled("plan.scale", {{"scale", scale.words}}), kStrong);
  const double length_m = bar_length_m(scale, box_.width_pt - 64.0, units_);
  const double length_pt = length_m * scale.points_per_meter();
  add_bar(length_pt, base::text_from_length(length_m, units_));
  const std::string on_paper =
      base::text_from_small_length(length_pt / drawing::kPointsPerMeter, units_);
  add_paragraph(wording_.filled("plan.bar", {{"length", on_paper}}));
  y_ += 6.0;
}

void KeyColumn::add_words(const std::string& words, const Style& style) {
  pen_.cut_text({box_.x_pt, y_ + kText_pt}, box_.width_pt, words, style);
  y_ += kRow_pt;
}

void KeyColumn::add_paragraph(const std::string& words, const Style& style) {
  y_ += pen_.paragraph({box_.x_pt, y_}, box_.width_pt, words, style);
}

void KeyColumn::add_figure(const std::string& name, double length_m) {
  add_figure(name, base::text_from_length(length_m, units_));
}

void KeyColumn::add_figure(const std::string& name, const std::string& figure) {
  const double figure_width = width_pt(figure, kStrong);
  pen_.cut_text({box_.x_pt, y_ + kText_pt}, box_.width_pt - figure_width - 6.0, name);
  pen_.text({box_.right_pt(), y_ + kText_pt}, figure,
            {.weight = drawing::Weight::bold, .anchor = drawing::Anchor::end});
  y_ += kRow_pt;
}

void KeyColumn::add_line(const drawing::Stroke& stroke, const std::string& name,
                         const std::string& length) {
  const double y = sample_y();
  pen_.line({box_.x_pt, y}, {box_.x_pt + kSample_pt, y}, stroke.width_pt, stroke.dash_pt);
  add_meaning(name, length);
}

void KeyColumn::add_string(const std::string& name, const std::string& length) {
  const double y = sample_y();
  pen_.line({box_.x_pt, y - 5.0}, {box_.x_pt, y + 5.0}, 2.0);
  add_line({kThin_pt, {}}, name, length);
}

void KeyColumn::add_pointer(const std::string& name) {
  draw_pointer(page_, {box_.x_pt + kSample_pt / 2.0, sample_y()}, {1.0, 0.0});
  add_meaning(name, "");
}

void KeyColumn::add_outline(const std::string& name, const std::string& rule) {
  add_line(outline_stroke(), name);
  add_meaning(rule, "");
}

void KeyColumn::add_mark(const DrawMark& draw, const std::string& name) {
  draw(page_, {box_.x_pt + kSample_pt / 2.0, sample_y()});
  add_meaning(name, "");
}

void KeyColumn::add_sample(const DrawSample& draw, const std::string& name) {
  draw(page_, {box_.x_pt, sample_y()}, {box_.x_pt + kSample_pt, sample_y()});
  add_meaning(name, "");
}

std::size_t KeyColumn::rows_left() const {
  return static_cast<std::size_t>(std::max(0.0, std::floor((box_.bottom_pt() - y_) / kRow_pt)));
}

double KeyColumn::sample_y() const {
  return y_ + kText_pt - drawing::cap_height_pt(kText_pt) / 2.0;
}

void KeyColumn::add_meaning(const std::string& name, const std::string& length) {
  const double left = box_.x_pt + kSample_pt + 8.0;
  const double taken = length.empty() ? 0.0 : width_pt(length) + 6.0;
  pen_.cut_text({left, y_ + kText_pt}, box_.right_pt() - taken - left, name);
  if (!length.empty()) pen_.text({box_.right_pt(), y_ + kText_pt}, length, kToTheRight);
  y_ += kRow_pt;
}

}  // namespace stakewright::forms
