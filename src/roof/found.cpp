#include "found.hpp"

#include <cassert>

#include "spread.hpp"

namespace stakewright::roof {
namespace {

void set_found_apex(Plate& plate, const Spec& spec, base::Point placed_center,
                    const FoundCorners& found, std::vector<std::string>& remarks) {
  set_apex(plate, placed_center);
  if (spec.apex_over == ApexOver::even_hips && !set_apex_for_even_hips(plate))
    remarks.emplace_back(
        "no place makes the hip runs even; the apex stands over the placed center");
  if (spec.apex_over != ApexOver::pin) return;
  if (!found.pin) {
    remarks.emplace_back("the pin was not measured; the apex stands over the placed center");
    return;
  }
  set_apex_over_pin(plate, *found.pin);
  if (found.covariance.rows == 2 * found.corners.size())
    remarks.emplace_back("the pin's own uncertainty is not known and counts as none");
}

bool apex_inside(const Plate& plate) {
  for (std::size_t i = 0; i < plate.corners.size(); ++i)
    if (!(surroundings(plate.window(i)).here.run > 0.0)) return false;
  return true;
}

}  // namespace

std::optional<Found> found_roof(const layout::Plan& plan, double plate_offset_m, const Roof& roof,
                                const FoundCorners& found, std::vector<std::string>& remarks) {
  assert(found.corners.size() == static_cast<std::size_t>(plan.polygon.sides));
  const auto labels = layout::corner_labels(plan.polygon.sides);
  const auto refuse = [&remarks](const std::string& reason) {
    remarks.push_back(reason + ": the roof is shown as planned only");
    return std::nullopt;
  };
  if (const auto reason = no_roof_because(lifted(found.corners), labels, "the corners found");
      !reason.empty())
    return refuse(reason);
  Found result{plate_over(found.corners, plate_offset_m, roof.height_m), {}};
  if (const auto reason = no_roof_because(result.plate.corners, labels,
                                          "the plate's corners over the corners found");
      !reason.empty())
    return refuse(reason);
  set_found_apex(result.plate, roof.spec, plan.center, found, remarks);
  if (!apex_inside(result.plate)) return refuse("the apex is not inside the plate line as found");
  result.covariance = carried(result.plate, found.covariance);
  return result;
}

}  // namespace stakewright::roof
