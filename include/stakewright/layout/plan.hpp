// The plan on its site: where each stake goes, what lies around it, and which
// tapes prove it.
//
// Units: meters and radians; x right, y forward; bearings clockwise from forward.
#pragma once

#include <string>
#include <vector>

#include "stakewright/base/point.hpp"
#include "stakewright/layout/polygon.hpp"

namespace stakewright::layout {

/// A known point of the site (`[[site.pin]]`).
struct Pin {
  std::string name;
  base::Point at;
};

/// An outline no line of the job may cross (`[[site.keep_clear]]`).
struct KeepClear {
  std::string name;
  bool keep_inside = true;  ///< false: stay outside it
  std::vector<base::Point> outline;
};

/// A line of `[lines]`: a polygon parallel to the plan line.
struct Line {
  std::string name;
  double offset_m = 0.0;  ///< outward
};

/// Everything the layout is worked from.
struct Plan {
  Polygon polygon;
  std::string measured_to = "post centers";
  base::Point center;             ///< of the center pin
  double facing_rad = 0.0;        ///< bearing of the middle of side A-B seen from O
  std::vector<std::string> hold;  ///< labels of stakes that must not move
  std::vector<Pin> pins;
  std::vector<KeepClear> keep_clear;
  std::vector<Line> lines;
  /// From a corner to the batter board, along the string; 0: chosen by `strings`.
  double batter_setback_m = 0.0;
};

/// A point that can be staked: a corner, or the center pin.
struct Stake {
  std::string label;
  base::Point at;
};

/// The corners in label order.  The center pin is not among them.
std::vector<Stake> stakes(const Plan& plan);

/// Corners of a polygon laid like the plan's (same center, same facing), in label order.
std::vector<base::Point> corners_of(const Polygon& polygon, const Plan& plan);

/// One length to be taped as a check.  skip: 1 a side, 2 and more a diagonal, 0 a corner radius.
struct Tape {
  std::string from;
  std::string to;
  int skip = 0;
  double length_m = 0.0;
};

/// All sides, then all diagonals by skip, then all corner radii.
std::vector<Tape> check_tapes(const Plan& plan);

struct LineFigures {
  std::string name;
  double offset_m = 0.0;
  double side_m = 0.0;
  double corner_radius_m = 0.0;
  double area_m2 = 0.0;
  std::vector<base::Point> corners;
};

/// Figures of the plan's lines, in the plan's order.
/// Throws InputError, naming the line, when an inward offset leaves nothing.
std::vector<LineFigures> lines(const Plan& plan);

}  // namespace stakewright::layout
