// What a carpenter marks on one stick besides its line: shortening, seat, notch,
// and the settings of square and saw.  Plain numbers: none of these decides a fit.
#pragma once

#include "exact.hpp"
#include "faces.hpp"
#include "stakewright/roof/roof.hpp"

namespace stakewright::roof {

/// Level distance from the apex at which a hip's end lies.
double hip_top_m(const Roof& roof);

/// Level distance from the planned hub's middle to its corners.
double hub_corner_m(const Roof& roof);

/// Level distance from the apex, along its middle, at which a common's end meets
/// the hub's corner or, where these stand further out, the sides of its two hips.
double common_top_m(const Roof& roof, const Surroundings<double>& around);

/// Level distance by which a stick that meets a hip at `angle_rad` in plan stops
/// short of the hip's middle: half the hip's thickness over the sine.
double short_of_hip_m(const Roof& roof, double angle_rad);

/// Fills shortening, tail, overall, stick, heel and notch of a rafter.
/// `level_short_m` is the shortening in plan, `tail_m` along the slope.
void finish_rafter(Part& part, const Roof& roof, double line_m, double slope_rad,
                   double level_short_m, double tail_m);

/// What the long point of a single cheek at `plan_rad` stands past the rafter's middle, along the
/// slope.
double cheek_point_m(const Roof& roof, double slope_rad, double plan_rad);

/// Plumb height by which the edges of a hip's square top stand above the faces,
/// the higher of the two: how far the hip is let down when it is not backed.
double hip_drop_m(const Roof& roof, const Surroundings<double>& around);

/// Width of the fascia board: that of the face it is nailed to, the end of the tail.
double fascia_width_m(const Roof& roof, double slope_rad);

/// Level seat of a rafter of this slope, once its top edge stands at the common heel.
double seat_length_m(const Roof& roof, double slope_rad);

/// Fills area, courses and the strip without bearing.
void finish_sheet(Sheet& sheet, const Roof& roof, const BayFigures& figures);

/// Cuts marked on the side of a rafter with the square held at rise and run.
Setting plumb_setting(double slope_rad);
Setting seat_setting(double slope_rad);

/// An upright cut at `plan_rad` to the middle of a rafter, through `taken_m` of its thickness:
/// marked on its top edge.
Setting cheek_setting(double slope_rad, double plan_rad, double taken_m);

/// A rip along the stick.
Setting rip_setting(double bevel_rad);

/// A cut that is miterd only.
Setting miter_setting(double miter_rad);

/// A cut that is miterd and bevelled through `taken_m`; `square_rad` is the angle that the square
/// shows.
Setting compound_setting(const SawAngles<double>& saw, double square_rad, double taken_m);

}  // namespace stakewright::roof
