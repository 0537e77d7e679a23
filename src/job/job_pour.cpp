// `[pour]`: the concrete of the job.
#include <fmt/format.h>

#include "job_parts.hpp"

namespace stakewright::job {
namespace {

constexpr int kMostPiers = 1000;
constexpr Range kPoured{0.0, 10.0, false, true, "a length above 0, up to 10 m (32 ft)"};
constexpr Range kWaste{0.0, 1.0, true, true, "a share from 0 to 1, as in 0.10"};
// A bag that makes less is a slip of the pen, and their count must stay a number.
constexpr Range kBagYield{1e-4, 10.0, true, true,
                          "a volume from 0.1 L to 10 m3, such as 0.6 cu ft"};

/// Two sizes of one solid come together or not at all.
void demand_both(const Section& pour, const char* one, const char* other) {
  for (const auto& [there, missing] : {std::pair{one, other}, std::pair{other, one}}) {
    const Entry* entry = pour.find(there);
    if (entry != nullptr && pour.find(missing) == nullptr)
      pour.refuse(*entry, fmt::format("read it without {}; accepted: both or neither", missing));
  }
}

void demand_beside(const Section& pour, const char* key, const char* needed) {
  const Entry* entry = pour.find(key);
  if (entry != nullptr && pour.find(needed) == nullptr)
    pour.refuse(*entry, fmt::format("read it without {}; accepted: with it", needed));
}

void demand_whole_solids(const Section& pour) {
  demand_both(pour, "pier_diameter", "pier_depth");
  demand_both(pour, "pad_width", "pad_thickness");
  demand_both(pour, "edge_width", "edge_depth");
  demand_beside(pour, "pad_width", "pier_diameter");
  demand_beside(pour, "piers", "pier_diameter");
  demand_beside(pour, "edge_width", "slab_thickness");
  demand_beside(pour, "slab_line", "slab_thickness");
  if (pour.find("pier_diameter") == nullptr && pour.find("slab_thickness") == nullptr)
    throw base::InputError(
        fmt::format("{}: read nothing to pour; accepted: pier_diameter with pier_depth, "
                    "slab_thickness, or both",
                    pour.place()));
}

/// The sums refuse a slab without a line, and an edge wider than its slab.
void demand_sums(const Section& section, const layout::Plan& plan, const layout::Pour& pour) {
  const char* key = section.find("edge_width") != nullptr ? "edge_width" : "slab_thickness";
  if (section.find("slab_line") != nullptr) key = "slab_line";
  const Entry* entry = section.find(key);
  if (entry == nullptr) return;
  section.read(*entry, [&](const Value&) { return layout::pour_volumes(plan, pour).net_m3; });
}

}  // namespace

layout::Pour read_pour(const Section& section, base::Units units, const layout::Plan& plan) {
  const auto poured = [units](const Value& v) { return length_in(v, units, kPoured); };
  demand_whole_solids(section);
  layout::Pour pour;
  if (section.find("pier_diameter") != nullptr) pour.piers = plan.polygon.sides;
  section.read("piers", pour.piers, [](const Value& v) { return whole_number(v, 1, kMostPiers); });
  section.read("pier_diameter", pour.pier_diameter_m, poured);
  section.read("pier_depth", pour.pier_depth_m, poured);
  section.read("pad_width", pour.pad_width_m, poured);
  section.read("pad_thickness", pour.pad_thickness_m, poured);
  section.read("slab_line", pour.slab_line, name_from);
  section.read("slab_thickness", pour.slab_thickness_m, poured);
  section.read("edge_width", pour.edge_width_m, poured);
  section.read("edge_depth", pour.edge_depth_m, poured);
  section.read("waste", pour.waste, [](const Value& v) { return number_in(v, kWaste); });
  section.read("bag_yield", pour.bag_yield_m3,
               [](const Value& v) { return quantity_in(v, base::Quantity::volume, kBagYield); });
  demand_sums(section, plan, pour);
  return pour;
}

}  // namespace stakewright::job
