// One bay of the roof: the hip and post of a corner and everything over the side that
// follows it, as parts and cuts.
#pragma once

#include <vector>

#include "exact.hpp"
#include "plate.hpp"
#include "stakewright/roof/roof.hpp"

namespace stakewright::roof {

struct BayPart {
  Part part;  ///< without its line
  Linear line;
};

struct BayCut {
  Cut cut;  ///< without its angle
  Linear angle;
  double lever_m = 0.0;  ///< over which an error of the angle opens into a gap
};

struct Bay {
  Place corner;
  Place side;
  BayFigures exact;
  std::vector<BayPart> parts;
  std::vector<BayCut> cuts;
};

/// The bays of all corners.  Parts and cuts come in the same order in every one.
std::vector<Bay> bays(const Roof& roof, const Plate& plate);

}  // namespace stakewright::roof
