#include "key_column.hpp"

#include <algorithm>
#include <cmath>

namespace stakewright::forms {
namespace {

using base::Fact;
using base::Length;
using base::Value;

constexpr double kRow_pt = 15.0;
constexpr double kSample_pt = 28.0;

}  // namespace

void KeyColumn::add_forward_arrow() {
  constexpr double kTall_pt = 40.0;
  const double x = box_.x_pt + 9.0;
  pen_.line({x, y_ + kTall_pt}, {x, y_ + 10.0}, 2.0);
  page_.marks.emplace_back(drawing::Polygon{
      {{x, y_}, {x + 7.0, y_ + 14.0}, {x - 7.0, y_ + 14.0}}, drawing::Fill::black, {0.0, {}}});
  pen_.in_box({x + 12.0, y_, box_.width_pt - 21.0, 20.0}, voice_.text("plan.forward"), kStrong);
  y_ += kTall_pt + 8.0;
}

void KeyColumn::add_bar(double length_pt, Length length) {
  const double left = box_.x_pt + 4.0;
  const double bar_y = y_ + 8.0;
  // A black and a white half, with feet that a rule can be laid to.
  pen_.black_box({left, bar_y - 2.0, length_pt / 2.0, 4.0});
  pen_.box({left, bar_y - 2.0, length_pt, 4.0});
  for (const double end : {left, left + length_pt})
    pen_.line({end, bar_y - 6.0}, {end, bar_y + 6.0});
  pen_.text({left + length_pt + 6.0, bar_y + 4.0}, voice_.text(length));
  y_ += 20.0;
}

void KeyColumn::add_scale(const Scale& scale) {
  add_words(words_of(scale, voice_.units()), kStrong);
  const double length_m = bar_length_m(scale, box_.width_pt - 64.0, voice_.units());
  const double length_pt = length_m * scale.points_per_meter();
  add_bar(length_pt, {length_m});
  add_paragraph(Fact{"plan.bar",
                     {{"length", Length{length_pt / drawing::kPointsPerMeter, base::Step::fine}}}});
  y_ += 6.0;
}

void KeyColumn::add_words(const Value& words, const Style& style) {
  pen_.cut_text({box_.x_pt, y_ + kText_pt}, box_.width_pt, voice_.text(words), style);
  y_ += kRow_pt;
}

void KeyColumn::add_paragraph(const Value& words) {
  y_ += pen_.paragraph({box_.x_pt, y_}, box_.width_pt, voice_.text(words));
}

void KeyColumn::add_figure(const Value& name, const Value& figure) {
  const std::string text = voice_.text(figure);
  pen_.cut_text({box_.x_pt, y_ + kText_pt}, box_.width_pt - width_pt(text, kStrong) - 6.0,
                voice_.text(name));
  pen_.text({box_.right_pt(), y_ + kText_pt}, text,
            {.weight = drawing::Weight::bold, .anchor = drawing::Anchor::end});
  y_ += kRow_pt;
}

void KeyColumn::add_line(const drawing::Stroke& stroke, const Value& name, const Value& length) {
  const double y = sample_y();
  pen_.line({box_.x_pt, y}, {box_.x_pt + kSample_pt, y}, stroke.width_pt, stroke.dash_pt);
  add_meaning(name, length);
}

void KeyColumn::add_string(const Value& name, const Value& length) {
  const double y = sample_y();
  pen_.line({box_.x_pt, y - 5.0}, {box_.x_pt, y + 5.0}, 2.0);
  add_line({kThin_pt, {}}, name, length);
}

void KeyColumn::add_outline(const Value& name, const Value& rule) {
  add_line(outline_stroke(), name);
  add_meaning(rule);
}

void KeyColumn::add_mark(const DrawMark& draw, const Value& name) {
  draw(page_, {box_.x_pt + kSample_pt / 2.0, sample_y()});
  add_meaning(name);
}

void KeyColumn::add_sample(const DrawSample& draw, const Value& name) {
  draw(page_, {box_.x_pt, sample_y()}, {box_.x_pt + kSample_pt, sample_y()});
  add_meaning(name);
}

std::size_t KeyColumn::rows_left() const {
  return static_cast<std::size_t>(std::max(0.0, std::floor((box_.bottom_pt() - y_) / kRow_pt)));
}

double KeyColumn::sample_y() const {
  return y_ + kText_pt - drawing::cap_height_pt(kText_pt) / 2.0;
}

void KeyColumn::add_meaning(const Value& name, const Value& length) {
  const double left = box_.x_pt + kSample_pt + 8.0;
  const std::string text = voice_.text(length);
  const double taken = text.empty() ? 0.0 : width_pt(text) + 6.0;
  pen_.cut_text({left, y_ + kText_pt}, box_.right_pt() - taken - left, voice_.text(name));
  if (!text.empty()) pen_.text({box_.right_pt(), y_ + kText_pt}, text, kToTheRight);
  y_ += kRow_pt;
}

}  // namespace stakewright::forms
