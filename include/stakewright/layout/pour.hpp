// Concrete for the piers and the slab: volumes of plain solids, from the sizes a job states.
//
// Units: meters, square and cubic meters.  Formulas: docs/methods/pour.md.  No size here is
// advice: depth, frost, bearing, reinforcement follow the local code and a licensed designer.
#pragma once

#include <optional>
#include <string>

#include "stakewright/layout/plan.hpp"

namespace stakewright::layout {

/// `[pour]` of the job file.  What has a size of 0 is not poured.
struct Pour {
  int piers = 0;
  double pier_diameter_m = 0.0;
  double pier_depth_m = 0.0;     ///< of the concrete: from the pier's top to its pad or bottom
  double pad_width_m = 0.0;      ///< side of the square pad under each pier
  double pad_thickness_m = 0.0;  ///< of that pad
  std::string slab_line = "slab_edge";
  double slab_thickness_m = 0.0;
  double edge_width_m = 0.0;  ///< of the thickened strip along the inside of the slab's line
  double edge_depth_m = 0.0;  ///< of that strip, below the underside of the slab
  double waste = 0.1;         ///< ordered on top, as a share of what the forms hold
  double bag_yield_m3 = 0.0;  ///< concrete that one bag makes; 0: bags are not counted
};

struct PourVolumes {
  double piers_m3 = 0.0;  ///< all of them
  double pads_m3 = 0.0;
  double slab_m3 = 0.0;
  double edge_m3 = 0.0;
  double slab_area_m2 = 0.0;
  double net_m3 = 0.0;    ///< what the forms hold
  double waste_m3 = 0.0;  ///< on top
  double order_m3 = 0.0;  ///< both
  std::optional<long long> bags;
};

/// Throws InputError when there is no line of the slab's name, or when its thickened edge, from
/// both sides, leaves nothing of the slab between.
PourVolumes pour_volumes(const Plan& plan, const Pour& pour);

}  // namespace stakewright::layout
