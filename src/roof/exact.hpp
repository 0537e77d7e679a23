// Every figure of one bay that decides a fit, with its exact derivatives.
#pragma once

#include <array>
#include <vector>

#include "faces.hpp"
#include "stakewright/layout/polygon.hpp"
#include "stakewright/roof/spec.hpp"

namespace stakewright::roof {

/// What all bays share: the job's roof, and what the plan fixes once and for all.
struct Roof {
  Spec spec;
  double height_m = 0.0;        ///< apex above the plate
  double flat_radius_m = 0.0;   ///< of the plate line, planned
  double half_angle_rad = 0.0;  ///< half of one side as the center sees it
  double heel_m = 0.0;          ///< of all rafters: their top edges lie in the faces
  int jacks = 0;                ///< on each side of a common
  /// Hips touch their neighbors at the peak, and commons end between hips.  Else the hub's
  /// faces keep hips apart, and commons end at its corners: tan(180/n) hub = hip parts the two.
  bool hips_meet = true;
  bool end_blocks = false;  ///< there is room for a block between the last rafter and the hip
};

/// The roof over a regular plate line.  Throws InputError for a spec that makes none,
/// saying what was read and what is accepted.
Roof roof_over(const layout::Polygon& plate, const Spec& spec);

/// Coordinates a bay depends on: x and y of the window's four corners, then of the apex.
inline constexpr std::size_t kWindowCoordinates = 10;

/// A figure, and how it changes with each of the window's coordinates.
struct Linear {
  double value = 0.0;
  std::array<double, kWindowCoordinates> by{};
};

/// A figure at both hands or ends.
struct Pair {
  Linear left;
  Linear right;
};

/// Lengths in meters, angles in radians; docs/methods/roof.md.
struct BayFigures {
  Linear hip_line;
  Linear hip_slope;
  Pair backing;
  Pair hip_miter;  ///< in plan, to the miter with the neighboring hip
  Pair hip_tail;   ///< on the hip's side, from square
  Pair hip_tail_bevel;
  Linear common_line;
  Linear common_slope;
  Pair to_hip;  ///< in plan, between common or jack and each hip
  std::vector<Linear> jacks_left;
  std::vector<Linear> jacks_right;
  Pair end_block;  ///< along the plate, side of the last rafter to side of the hip
  Linear overhang;
  Linear drop;
  Linear eave_line;
  Pair fascia_miter;
  Pair fascia_bevel;
  Linear sheet_height;  ///< up the slope, eave line to apex
  Pair sheet_edge;      ///< in the face, between eave line and hip
  Linear side;
  Pair half_turn;  ///< of the way round, at the side's ends
};

BayFigures exact_figures(const Roof& roof, const Window<double>& window);

/// x and y of the plate corner outside `here`, where the sides from `before` and to
/// `after` meet once both are shifted outward; derivatives by the three corners in that order.
std::array<Linear, 2> plate_corner(const Vec<double>& before, const Vec<double>& here,
                                   const Vec<double>& after, double offset_m);

}  // namespace stakewright::roof
