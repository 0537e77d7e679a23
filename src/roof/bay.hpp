// One bay of the roof: the hip of a corner and everything over the side that
// follows it, with exact derivatives.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "faces.hpp"
#include "stakewright/roof/roof.hpp"

namespace stakewright::roof {

/// What all bays share: the job's roof, and what the plan fixes once and for all.
struct Roof {
  Spec spec;
  double height_m = 0.0;       ///< apex above the plate
  double flat_radius_m = 0.0;  ///< of the plate line, planned
  double seat_m = 0.0;         ///< of the commons, planned
  double heel_m = 0.0;         ///< of all rafters: their top edges lie in the faces
  int jacks = 0;               ///< on each side of a common
};

/// Coordinates a bay depends on: x and y of the window's four corners, then of the apex.
inline constexpr std::size_t kWindowCoordinates = 10;

/// A figure, and how it changes with each of the window's coordinates.
struct Linear {
  double value = 0.0;
  std::array<double, kWindowCoordinates> by{};
};

struct BayPart {
  Part part;  ///< without its line
  Linear line;
};

struct BayCut {
  Cut cut;  ///< without its angle
  Linear angle;
  double lever_m = 0.0;  ///< over which an error of the angle opens into a gap
};

struct BayEave {
  std::string at;
  Linear overhang;
  Linear drop;
};

struct Bay {
  std::vector<BayPart> parts;
  std::vector<BayCut> cuts;
  std::vector<BayEave> eaves;
};

/// x and y of the plate corner outside `here`, where the sides from `before` and to
/// `after` meet once both are shifted outward; derivatives by the three corners in that order.
std::array<Linear, 2> plate_corner(const Vec<double>& before, const Vec<double>& here,
                                   const Vec<double>& after, double offset_m);

/// The bay of the window's second corner (the hip) and of the side to the third.
/// Parts and cuts come in the same order for every window.
Bay bay(const Roof& roof, const Window<double>& window, const std::string& corner,
        const std::string& side);

}  // namespace stakewright::roof
