#include <fmt/format.h>

#include <cassert>
#include <cmath>
#include <utility>

#include "bay.hpp"
#include "plate.hpp"
#include "spec.hpp"
#include "spread.hpp"
#include "stakewright/roof/roof.hpp"

namespace stakewright::roof {
namespace {

using Remarks = std::vector<std::string>;

/// The roof as found: its plate and the covariance carried to the plate's coordinates.
struct Found {
  Plate plate;
  base::Matrix covariance;
};

void set_found_apex(Plate& plate, const Spec& spec, base::Point placed_centre,
                    const FoundCorners& found, Remarks& remarks) {
  set_apex(plate, placed_centre);
  if (spec.apex_over == ApexOver::even_hips && !set_apex_for_even_hips(plate))
    remarks.emplace_back(
        "no place makes the hip runs even; the apex stands over the placed centre");
  if (spec.apex_over != ApexOver::pin) return;
  if (!found.pin) {
    remarks.emplace_back("the pin was not measured; the apex stands over the placed centre");
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

std::optional<Found> found_roof(const layout::Plan& plan, double plate_offset_m, const Roof& roof,
                                const FoundCorners& found, Remarks& remarks) {
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
  set_found_apex(result.plate, roof.spec, plan.centre, found, remarks);
  if (!apex_inside(result.plate)) return refuse("the apex is not inside the plate line as found");
  result.covariance = carried(result.plate, found.covariance);
  return result;
}

/// Planned bay and found bay of one corner, figure by figure.
class Merger {
 public:
  Merger(const base::Tolerance& tolerance, const Found* found)
      : part_tolerance_m_(tolerance.part_m), found_(found) {
    if (found_ != nullptr) factor_ = half_width_factor(tolerance.confidence);
  }

  void merge(Carry& carry, const Bay& planned, const Bay& found, std::size_t corner) {
    if (found_ != nullptr) rows_ = window_rows(corner, found_->plate.corners.size());
    for (std::size_t i = 0; i < planned.parts.size(); ++i)
      carry.parts.push_back(part(planned.parts[i], found.parts[i]));
    for (std::size_t i = 0; i < planned.cuts.size(); ++i)
      carry.cuts.push_back(cut(planned.cuts[i], found.cuts[i]));
    for (std::size_t i = 0; i < planned.eaves.size(); ++i)
      carry.eaves.push_back({planned.eaves[i].at,
                             figure(planned.eaves[i].overhang, found.eaves[i].overhang),
                             figure(planned.eaves[i].drop, found.eaves[i].drop)});
  }

 private:
  [[nodiscard]] Figure figure(const Linear& planned, const Linear& found) const {
    Figure result;
    result.planned = planned.value;
    if (found_ == nullptr) return result;
    result.found = found.value;
    result.difference = found.value - planned.value;
    result.uncertainty = factor_ * standard_deviation(found, rows_, found_->covariance);
    return result;
  }

  /// Off by so much over a lever of 1, and no more than that at the job's confidence.
  [[nodiscard]] Fit fit(const Figure& figure, double lever) const {
    if (!figure.found) return Fit::pattern;
    const double off = (std::abs(*figure.difference) + *figure.uncertainty) * lever;
    return off <= part_tolerance_m_ ? Fit::pattern : Fit::own;
  }

  [[nodiscard]] Part part(const BayPart& planned, const BayPart& found) const {
    Part result = planned.part;
    result.line = figure(planned.line, found.line);
    result.fit = fit(result.line, 1.0);
    if (result.fit == Fit::own) {
      Part own = found.part;
      own.line = result.line;
      own.fit = Fit::own;
      return own;
    }
    if (found_ != nullptr) result.from_corner_m = found.part.from_corner_m;
    return result;
  }

  [[nodiscard]] Cut cut(const BayCut& planned, const BayCut& found) const {
    Cut result = planned.cut;
    result.angle = figure(planned.angle, found.angle);
    result.fit = fit(result.angle, planned.lever_m);
    if (result.fit == Fit::own) result.setting = found.cut.setting;
    return result;
  }

  double part_tolerance_m_;
  double factor_ = 0.0;
  const Found* found_;
  WindowRows rows_{};
};

}  // namespace

Carry carry(const layout::Plan& plan, double plate_offset_m, const Spec& spec,
            const base::Tolerance& tolerance, const std::optional<FoundCorners>& found) {
  const Roof roof = roof_over(layout::parallel(plan.polygon, plate_offset_m), spec);
  Plate planned = plate_over(layout::corners_of(plan.polygon, plan), plate_offset_m, roof.height_m);
  set_apex(planned, plan.centre);

  Carry result;
  std::optional<Found> as_found;
  if (found) as_found = found_roof(plan, plate_offset_m, roof, *found, result.remarks);
  const Plate& shown = as_found ? as_found->plate : planned;
  result.apex = {{shown.apex.x, shown.apex.y}, roof.height_m};

  Merger merger(tolerance, as_found ? &*as_found : nullptr);
  const auto labels = layout::corner_labels(plan.polygon.sides);
  for (std::size_t i = 0; i < labels.size(); ++i) {
    const BayNames names{labels[i], labels[i] + "-" + labels[(i + 1) % labels.size()]};
    const Bay of_plan = bay(roof, planned.window(i), names);
    merger.merge(result, of_plan, as_found ? bay(roof, as_found->plate.window(i), names) : of_plan,
                 i);
  }
  return result;
}

}  // namespace stakewright::roof
