#include "stakewright/layout/pour.hpp"

#include <cmath>
#include <numbers>
#include <vector>

#include "stakewright/base/error.hpp"
#include "stakewright/layout/surroundings.hpp"

namespace stakewright::layout {
namespace {

/// A count of bags this little above a whole number is that number: sums of volumes round.
constexpr double kOfABag = 1e-9;

Polygon slab_of(const Plan& plan, const std::string& name) {
  if (name == kPlanLineName) return plan.polygon;
  std::vector<std::string> known{kPlanLineName};
  for (const Line& line : plan.lines) {
    if (line.name == name) return parallel(plan.polygon, line.offset_m);
    known.push_back(line.name);
  }
  throw base::InputError(base::Fact{
      "errors.no_line_for_slab",
      {{"line", base::Quoted{name}}, {"accepted", base::names(known, base::List::Joint::listed)}}});
}

void add_slab(const Plan& plan, const Pour& pour, PourVolumes& volumes) {
  const Polygon slab = slab_of(plan, pour.slab_line);
  volumes.slab_area_m2 = area_m2(slab);
  volumes.slab_m3 = volumes.slab_area_m2 * pour.slab_thickness_m;
  if (pour.edge_width_m > 0.0) {
    const double within_m2 = area_m2(parallel(slab, -pour.edge_width_m));
    volumes.edge_m3 = (volumes.slab_area_m2 - within_m2) * pour.edge_depth_m;
  }
}

}  // namespace

PourVolumes pour_volumes(const Plan& plan, const Pour& pour) {
  PourVolumes volumes;
  const double pier_m2 = std::numbers::pi * pour.pier_diameter_m * pour.pier_diameter_m / 4.0;
  volumes.piers_m3 = pour.piers * pier_m2 * pour.pier_depth_m;
  volumes.pads_m3 = pour.piers * pour.pad_width_m * pour.pad_width_m * pour.pad_thickness_m;
  if (pour.slab_thickness_m > 0.0) add_slab(plan, pour, volumes);
  volumes.net_m3 = volumes.piers_m3 + volumes.pads_m3 + volumes.slab_m3 + volumes.edge_m3;
  volumes.waste_m3 = volumes.net_m3 * pour.waste;
  volumes.order_m3 = volumes.net_m3 + volumes.waste_m3;
  if (pour.bag_yield_m3 > 0.0)
    volumes.bags =
        static_cast<long long>(std::ceil(volumes.order_m3 / pour.bag_yield_m3 - kOfABag));
  return volumes;
}

}  // namespace stakewright::layout
