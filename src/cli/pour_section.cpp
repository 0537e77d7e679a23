#include "pour_section.hpp"

#include <fmt/format.h>

#include <vector>

#include "stakewright/base/quantity.hpp"
#include "words.hpp"

namespace stakewright::cli {
namespace {

using base::text_from_length;
using base::text_from_volume;

std::vector<Row> solids(const layout::Pour& pour, const layout::PourVolumes& volumes,
                        base::Units units) {
  const auto length = [units](double m) { return text_from_length(m, units); };
  const auto volume = [units](double m3) { return text_from_volume(m3, units); };
  std::vector<Row> rows;
  if (pour.pier_diameter_m > 0.0)
    rows.push_back(
        {counted(static_cast<std::size_t>(pour.piers), "pier", "piers"),
         fmt::format("{} across, {} deep", length(pour.pier_diameter_m), length(pour.pier_depth_m)),
         volume(volumes.piers_m3)});
  if (pour.pad_width_m > 0.0)
    rows.push_back(
        {counted(static_cast<std::size_t>(pour.piers), "pad", "pads"),
         fmt::format("{} square, {} thick", length(pour.pad_width_m), length(pour.pad_thickness_m)),
         volume(volumes.pads_m3)});
  if (pour.slab_thickness_m > 0.0)
    rows.push_back(
        {"slab",
         fmt::format("{} within {}, {} thick", base::text_from_area(volumes.slab_area_m2, units),
                     pour.slab_line, length(pour.slab_thickness_m)),
         volume(volumes.slab_m3)});
  if (pour.edge_width_m > 0.0)
    rows.push_back({"thickened edge",
                    fmt::format("{} wide, {} below the slab", length(pour.edge_width_m),
                                length(pour.edge_depth_m)),
                    volume(volumes.edge_m3)});
  return rows;
}

}  // namespace

std::string pour_section(const layout::Pour& pour, const layout::PourVolumes& volumes,
                         const Shown& shown) {
  std::vector<Row> rows = solids(pour, volumes, shown.units);
  rows.push_back({"in the forms", "", text_from_volume(volumes.net_m3, shown.units)});
  rows.push_back({"waste", fmt::format("{:.3g} %", 100.0 * pour.waste),
                  text_from_volume(volumes.waste_m3, shown.units)});
  rows.push_back({"to order", "", text_from_volume(volumes.order_m3, shown.units)});
  if (volumes.bags)
    rows.push_back({"or bags", "by the yield on the bag", fmt::format("{}", *volumes.bags)});
  return heading("Concrete, by the sizes of the job file", shown.emphasis) +
         table({{"what"}, {"size"}, {"volume", Align::right}}, rows, shown.emphasis) +
         paragraph(
             "Sizes, depth, frost, pads and steel follow the local code and a licensed "
             "designer. Wet concrete burns: gloves, boots, glasses, water at hand.");
}

}  // namespace stakewright::cli
