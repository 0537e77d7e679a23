// The side and the top edge of a rafter as it lies on the trestles: in its own axes.
//
// Meters: x along the top edge from the middle of the tail cut up the slope, y square to it, down.
#pragma once

#include <vector>

#include "stakewright/roof/roof.hpp"

namespace stakewright::forms {

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
  [[nodiscard]] double plumb_run() const;
  /// Where the plumb line over the plate line meets the plate, and the inner end of the seat.
  [[nodiscard]] StickPoint heel_point() const;
  [[nodiscard]] StickPoint seat_end() const;
};

/// The shape of a hip, common or jack, with the cuts of `carry`.
StickShape stick_shape(const roof::Carry& carry, const roof::Spec& spec, const roof::Part& part);

/// Cuts of a piece by name: the one for both sides, or left then right.  Jacks of one hand of a
/// side have their cheek alike, and all other cuts from their side's common.
std::vector<const roof::Cut*> cuts_of(const roof::Carry& carry, const roof::PartName& part,
                                      roof::CutName name);

/// The angle that the piece is cut to: planned, or its own.
double angle_to_cut_rad(const roof::Cut& cut);

/// The outline of the side between two places along the stick; `head_m` and `tail_m` move the
/// plumb cut and the tail cut up and down it.  A piece without a notch has none.
std::vector<StickPoint> side_outline(const StickShape& stick, double head_m, double tail_m,
                                     double from_m, double to_m);

}  // namespace stakewright::forms
