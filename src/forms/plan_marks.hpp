// How each thing on the plan is marked, on the drawing and in its key alike, and the directions in
// which its label may stand.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "stakewright/base/point.hpp"
#include "stakewright/drawing/page.hpp"

namespace stakewright::forms {

inline constexpr double kStakeRadius_pt = 2.8;
inline constexpr double kHeldHalf_pt = 5.5;
inline constexpr double kCenterReach_pt = 7.0;
inline constexpr double kPinReach_pt = 6.5;

/// How the n-th line of the job is drawn; told apart without color.
drawing::Stroke line_stroke(std::size_t n);
drawing::Stroke plan_line_stroke();
drawing::Stroke outline_stroke();

void draw_stake(drawing::Page& page, drawing::At at);
void draw_held_stake(drawing::Page& page, drawing::At at);
void draw_center(drawing::Page& page, drawing::At at);
void draw_pin(drawing::Page& page, drawing::At at);

/// The baseline is two thin lines so far from its middle: nothing else on the plan is.
inline constexpr double kHalfGauge_pt = 2.6;
void draw_baseline_sample(drawing::Page& page, drawing::At middle);

/// A direction on the page.
struct Direction {
  double x = 0.0;
  double y = 0.0;
};

/// The direction on paper of a vector on the ground, forward being up.
Direction paper_direction(base::Point ground);

Direction turned(Direction direction, double angle_rad);
Direction back(Direction direction);

/// The direction and others near it, alternately to either side.
std::vector<Direction> fan(Direction direction);

/// Sixteen directions, the right-hand side first.
std::vector<Direction> all_round();

inline constexpr double kNumberRadius_pt = 7.5;
/// A black disc with a white number, by which a list names what is marked.
void draw_number(drawing::Page& page, drawing::At middle, const std::string& number);

/// An arrowhead at the edge of a drawing, toward what lies beyond it.
void draw_pointer(drawing::Page& page, drawing::At at, Direction toward);

drawing::Box around(drawing::At at, double half_pt);

}  // namespace stakewright::forms
