#include "found_marks.hpp"

#include <cmath>
#include <numbers>

#include "pen.hpp"
#include "plan_marks.hpp"

namespace stakewright::forms {
namespace {

using drawing::At;

struct Along {
  Direction unit;
  double length_pt = 0.0;
};

Along along(At from, At to) {
  const double dx = to.x_pt - from.x_pt;
  const double dy = to.y_pt - from.y_pt;
  const double length = std::hypot(dx, dy);
  if (length == 0.0) return {};
  return {{dx / length, dy / length}, length};
}

At beside(At from, Direction unit, double forth_pt, double aside_pt) {
  return {from.x_pt + forth_pt * unit.x - aside_pt * unit.y,
          from.y_pt + forth_pt * unit.y + aside_pt * unit.x};
}

}  // namespace

drawing::Stroke planned_stroke() { return {0.75, {5.0, 3.0}}; }

drawing::Stroke found_stroke() { return {1.6, {}}; }

drawing::Stroke tolerance_stroke() { return {0.5, {}}; }

drawing::Stroke ellipse_stroke() { return {0.75, {1.5, 1.5}}; }

drawing::Stroke left_out_stroke() { return {1.0, {12.0, 4.0}}; }

std::vector<At> ellipse_points(At center, double major_pt, double minor_pt, double bearing_rad) {
  constexpr int kPieces = 32;
  std::vector<At> points;
  const double s = std::sin(bearing_rad);
  const double c = std::cos(bearing_rad);
  for (int k = 0; k < kPieces; ++k) {
    const double angle = 2.0 * std::numbers::pi * k / kPieces;
    const double u = major_pt * std::cos(angle);
    const double v = minor_pt * std::sin(angle);
    // Along the bearing on paper: right by its sine, up by its cosine.
    points.push_back({center.x_pt + u * s + v * c, center.y_pt - u * c + v * s});
  }
  return points;
}

void draw_wanted(drawing::Page& page, At at) {
  constexpr double kReach_pt = 3.0;
  Pen pen(page);
  pen.line({at.x_pt - kReach_pt, at.y_pt}, {at.x_pt + kReach_pt, at.y_pt}, kRule_pt);
  pen.line({at.x_pt, at.y_pt - kReach_pt}, {at.x_pt, at.y_pt + kReach_pt}, kRule_pt);
}

void draw_found(drawing::Page& page, At at, placement::Verdict verdict) {
  constexpr double kRadius_pt = 3.0;
  switch (verdict) {
    case placement::Verdict::in:
      page.marks.emplace_back(drawing::Circle{at, kRadius_pt, drawing::Fill::black, {0.0, {}}});
      return;
    case placement::Verdict::undecided:
      page.marks.emplace_back(drawing::Circle{at, kRadius_pt, drawing::Fill::white, {1.2, {}}});
      return;
    case placement::Verdict::out:
      break;
  }
  page.marks.emplace_back(drawing::Circle{at, kFoundReach_pt, drawing::Fill::white, {1.4, {}}});
  page.marks.emplace_back(
      drawing::Rectangle{around(at, kRadius_pt), drawing::Fill::black, {0.0, {}}});
}

void draw_not_fixed(drawing::Page& page, At at) {
  page.marks.emplace_back(
      drawing::Circle{at, kFoundReach_pt, drawing::Fill::none, {1.2, {2.0, 2.0}}});
}

void draw_move(drawing::Page& page, At from, At to) {
  constexpr double kHead_pt = 7.0;
  constexpr double kHalf_pt = 3.2;
  Pen pen(page);
  const auto [unit, length] = along(from, to);
  if (length < 1.5 * kHead_pt) {
    pen.line(from, to, 2.0);
    return;
  }
  pen.line(from, beside(from, unit, length - kHead_pt, 0.0), 2.0);
  page.marks.emplace_back(drawing::Polygon{{to, beside(from, unit, length - kHead_pt, kHalf_pt),
                                            beside(from, unit, length - kHead_pt, -kHalf_pt)},
                                           drawing::Fill::black,
                                           {0.0, {}}});
}

void draw_hatched(drawing::Page& page, At from, At to) {
  constexpr double kStep_pt = 7.0;
  constexpr double kHalf_pt = kHatchReach_pt;
  Pen pen(page);
  const auto [unit, length] = along(from, to);
  pen.line(from, to, 1.2);
  for (double forth = 0.5 * kStep_pt; forth < length; forth += kStep_pt)
    pen.line(beside(from, unit, forth - kHalf_pt, kHalf_pt),
             beside(from, unit, forth + kHalf_pt, -kHalf_pt), kRule_pt);
}

void draw_number(drawing::Page& page, At middle, const std::string& number) {
  constexpr Style kNumber{.weight = drawing::Weight::bold,
                          .anchor = drawing::Anchor::middle,
                          .ink = drawing::Ink::white};
  page.marks.emplace_back(
      drawing::Circle{middle, kSuspectRadius_pt, drawing::Fill::black, {0.0, {}}});
  Pen(page).text({middle.x_pt, middle.y_pt + drawing::cap_height_pt(kNumber.size_pt) / 2.0}, number,
                 kNumber);
}

}  // namespace stakewright::forms
