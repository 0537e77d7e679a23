#include "plan_marks.hpp"

#include <array>
#include <cmath>
#include <numbers>

#include "pen.hpp"
#include "stakewright/base/angle.hpp"

namespace stakewright::forms {

using drawing::At;
using drawing::Box;

Box around(At at, double half_pt) {
  return {at.x_pt - half_pt, at.y_pt - half_pt, 2.0 * half_pt, 2.0 * half_pt};
}

drawing::Stroke plan_line_stroke() { return {1.8, {}}; }

drawing::Stroke outline_stroke() { return {1.2, {9.0, 2.0, 1.5, 2.0, 1.5, 2.0}}; }

drawing::Stroke line_stroke(std::size_t n) {
  static const std::array<std::vector<double>, 5> kDashes{
      {{6.0, 2.5}, {1.5, 2.0}, {10.0, 3.0}, {6.0, 2.0, 1.5, 2.0}, {3.0, 3.0}}};
  return {n / kDashes.size() % 2 == 0 ? 0.9 : 1.6, kDashes[n % kDashes.size()]};
}

void draw_stake(drawing::Page& page, At at) {
  page.marks.emplace_back(drawing::Circle{at, kStakeRadius_pt, drawing::Fill::black, {0.0, {}}});
}

void draw_held_stake(drawing::Page& page, At at) {
  page.marks.emplace_back(
      drawing::Rectangle{around(at, kHeldHalf_pt), drawing::Fill::white, {1.2, {}}});
  draw_stake(page, at);
}

void draw_center(drawing::Page& page, At at) {
  constexpr double kCenterRadius_pt = 4.0;
  Pen pen(page);
  page.marks.emplace_back(drawing::Circle{at, kCenterRadius_pt, drawing::Fill::white, {1.0, {}}});
  const double reach = kCenterReach_pt;
  pen.line({at.x_pt - reach, at.y_pt}, {at.x_pt + reach, at.y_pt}, 1.0);
  pen.line({at.x_pt, at.y_pt - reach}, {at.x_pt, at.y_pt + reach}, 1.0);
}

void draw_pin(drawing::Page& page, At at) {
  page.marks.emplace_back(drawing::Polygon{
      {{at.x_pt, at.y_pt - 6.0}, {at.x_pt + 5.2, at.y_pt + 3.0}, {at.x_pt - 5.2, at.y_pt + 3.0}},
      drawing::Fill::white,
      {1.2, {}}});
  page.marks.emplace_back(drawing::Circle{at, 1.2, drawing::Fill::black, {0.0, {}}});
}

void draw_baseline_sample(drawing::Page& page, At middle) {
  constexpr double kHalf_pt = 14.0;
  Pen pen(page);
  for (const double y : {middle.y_pt - kHalfGauge_pt, middle.y_pt + kHalfGauge_pt})
    pen.line({middle.x_pt - kHalf_pt, y}, {middle.x_pt + kHalf_pt, y}, kThin_pt);
}

void draw_number(drawing::Page& page, At middle, const std::string& number) {
  constexpr Style kNumber{.weight = drawing::Weight::bold,
                          .anchor = drawing::Anchor::middle,
                          .ink = drawing::Ink::white};
  page.marks.emplace_back(
      drawing::Circle{middle, kNumberRadius_pt, drawing::Fill::black, {0.0, {}}});
  Pen(page).text({middle.x_pt, middle.y_pt + drawing::cap_height_pt(kNumber.size_pt) / 2.0}, number,
                 kNumber);
}

void draw_pointer(drawing::Page& page, At at, Direction toward) {
  const auto corner = [&](double along, double across) {
    return At{at.x_pt + along * toward.x - across * toward.y,
              at.y_pt + along * toward.y + across * toward.x};
  };
  page.marks.emplace_back(drawing::Polygon{
      {corner(7.0, 0.0), corner(-4.0, 5.0), corner(-4.0, -5.0)}, drawing::Fill::black, {0.0, {}}});
}

Direction paper_direction(base::Point ground) {
  const double length = base::norm_m(ground);
  return {ground.x_m / length, -ground.y_m / length};
}

Direction turned(Direction direction, double angle_rad) {
  const double c = std::cos(angle_rad);
  const double s = std::sin(angle_rad);
  return {c * direction.x - s * direction.y, s * direction.x + c * direction.y};
}

Direction back(Direction direction) { return {-direction.x, -direction.y}; }

std::vector<Direction> fan(Direction direction) {
  std::vector<Direction> directions{direction};
  for (const double degrees : {10.0, 20.0, 30.0, 42.0}) {
    directions.push_back(turned(direction, degrees * base::kDegree_rad));
    directions.push_back(turned(direction, -degrees * base::kDegree_rad));
  }
  return directions;
}

std::vector<Direction> all_round() {
  constexpr int kDirections = 16;
  std::vector<Direction> directions;
  directions.reserve(kDirections);
  for (int k = 0; k < kDirections; ++k)
    directions.push_back(
        turned({1.0, 0.0}, (k % 2 == 0 ? k : -k) * std::numbers::pi / kDirections));
  return directions;
}

}  // namespace stakewright::forms
