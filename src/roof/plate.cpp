#include "plate.hpp"

#include <array>
#include <cassert>
#include <cmath>
#include <numbers>

#include "spread.hpp"

namespace stakewright::roof {
namespace {

/// A corner flatter than this is none: 1 mm in a meter, less than a hip could be fitted to.
constexpr double kFlattestCorner_rad = 1e-3;

/// Shortest side that still has a direction to a tape.
constexpr double kShortestSide_m = 1e-3;

/// The search for even hips stops below this step: far under what a pencil marks, far over
/// the rounding of coordinates of tens of meters.
constexpr double kApexStep_m = 1e-13;
constexpr int kMostApexSteps = 50;

void add_row(base::Matrix& by, std::size_t row, const std::array<std::size_t, 3>& corners,
             const Linear& figure) {
  for (std::size_t k = 0; k < corners.size(); ++k) {
    by(row, 2 * corners[k]) += figure.by[2 * k];
    by(row, 2 * corners[k] + 1) += figure.by[2 * k + 1];
  }
}

/// Angle by which the way round turns at a corner, clockwise positive.
double turn_rad(const Vec<double>& before, const Vec<double>& here, const Vec<double>& after) {
  const Vec<double> in = here - before;
  const Vec<double> out = after - here;
  return std::atan2(out.x * in.y - out.y * in.x, dot(in, out));
}

/// A symmetric or not 2 x 2 matrix, row by row.
struct Square {
  double xx = 0.0, xy = 0.0, yx = 0.0, yy = 0.0;

  [[nodiscard]] base::Point solve(base::Point right) const {
    const double determinant = xx * yy - xy * yx;
    return {(yy * right.x_m - xy * right.y_m) / determinant,
            (xx * right.y_m - yx * right.x_m) / determinant};
  }
};

/// The hip runs seen from a place: unit directions away from each corner, runs, mean values.
struct Runs {
  std::vector<base::Point> direction;
  std::vector<double> run;
  base::Point mean_direction;
  double mean_run = 0.0;
};

Runs runs_from(const std::vector<Vec<double>>& corners, base::Point apex) {
  Runs runs;
  const double share = 1.0 / static_cast<double>(corners.size());
  for (const auto& corner : corners) {
    const base::Point away = apex - base::Point{corner.x, corner.y};
    const double run = norm_m(away);
    runs.run.push_back(run);
    runs.direction.push_back((1.0 / run) * away);
    runs.mean_run += share * run;
    runs.mean_direction = runs.mean_direction + share * runs.direction.back();
  }
  return runs;
}

/// How the gradient of half the spread at the apex answers to a move of the apex as seen
/// from one corner; the corner's own move counts the other way.  docs/methods/roof.md.
Square response(const Runs& runs, std::size_t corner) {
  const base::Point u = runs.direction[corner];
  const base::Point about_mean = u - runs.mean_direction;
  const double bend = (runs.run[corner] - runs.mean_run) / runs.run[corner];
  return {about_mean.x_m * u.x_m + bend * (1.0 - u.x_m * u.x_m),
          about_mean.x_m * u.y_m - bend * u.x_m * u.y_m,
          about_mean.y_m * u.x_m - bend * u.y_m * u.x_m,
          about_mean.y_m * u.y_m + bend * (1.0 - u.y_m * u.y_m)};
}

Square total_response(const Runs& runs) {
  Square total;
  for (std::size_t i = 0; i < runs.run.size(); ++i) {
    const Square one = response(runs, i);
    total.xx += one.xx, total.xy += one.xy, total.yx += one.yx, total.yy += one.yy;
  }
  return total;
}

base::Point gradient(const Runs& runs) {
  base::Point sum;
  for (std::size_t i = 0; i < runs.run.size(); ++i)
    sum = sum + (runs.run[i] - runs.mean_run) * runs.direction[i];
  return sum;
}

base::Point mean_of(const std::vector<Vec<double>>& corners) {
  base::Point sum;
  for (const auto& corner : corners) sum = sum + base::Point{corner.x, corner.y};
  return (1.0 / static_cast<double>(corners.size())) * sum;
}

/// Derivatives of the even-hips apex: minus the inverse of the response to the apex,
/// times the response to each corner.
void differentiate_even_hips(Plate& plate, const Runs& runs) {
  const std::size_t n = plate.corners.size();
  const Square all = total_response(runs);
  for (std::size_t j = 0; j < n; ++j) {
    const Square one = response(runs, j);
    const base::Point by_x = all.solve({one.xx, one.yx});
    const base::Point by_y = all.solve({one.xy, one.yy});
    for (std::size_t column = 0; column < plate.by.cols; ++column) {
      const double dx = plate.by(2 * j, column);
      const double dy = plate.by(2 * j + 1, column);
      plate.by(2 * n, column) += by_x.x_m * dx + by_y.x_m * dy;
      plate.by(2 * n + 1, column) += by_x.y_m * dx + by_y.y_m * dy;
    }
  }
}

/// Points of the plan in space, at the height of the plate.
std::vector<Vec<double>> lifted(const std::vector<base::Point>& points) {
  std::vector<Vec<double>> result;
  result.reserve(points.size());
  for (const auto& point : points) result.push_back({point.x_m, point.y_m, 0.0});
  return result;
}

}  // namespace

Window<double> Plate::window(std::size_t corner) const {
  const std::size_t n = corners.size();
  return {{corners[(corner + n - 1) % n], corners[corner], corners[(corner + 1) % n],
           corners[(corner + 2) % n]},
          apex};
}

WindowRows window_rows(std::size_t corner, std::size_t corners) {
  WindowRows rows{};
  for (std::size_t k = 0; k < kWindowCoordinates; k += 2) {
    const bool apex = k + 2 == kWindowCoordinates;
    const std::size_t at = apex ? corners : (corner + corners - 1 + k / 2) % corners;
    rows[k] = 2 * at;
    rows[k + 1] = 2 * at + 1;
  }
  return rows;
}

Plate plate_over(const std::vector<base::Point>& corners, double offset_m, double height_m) {
  const std::size_t n = corners.size();
  const auto given = lifted(corners);
  Plate plate;
  plate.apex.z = height_m;
  plate.by = base::Matrix(2 * n + 2, 2 * n + 2);
  for (std::size_t i = 0; i < n; ++i) {
    const std::array<std::size_t, 3> from = {(i + n - 1) % n, i, (i + 1) % n};
    const auto corner = plate_corner(given[from[0]], given[i], given[from[2]], offset_m);
    plate.corners.push_back({corner[0].value, corner[1].value, 0.0});
    add_row(plate.by, 2 * i, from, corner[0]);
    add_row(plate.by, 2 * i + 1, from, corner[1]);
  }
  return plate;
}

void set_apex(Plate& plate, base::Point at) {
  plate.apex.x = at.x_m;
  plate.apex.y = at.y_m;
}

bool set_apex_for_even_hips(Plate& plate) {
  base::Point apex = mean_of(plate.corners);
  for (int step = 0; step < kMostApexSteps; ++step) {
    const Runs runs = runs_from(plate.corners, apex);
    const base::Point move = total_response(runs).solve(gradient(runs));
    if (!std::isfinite(move.x_m) || !std::isfinite(move.y_m)) return false;
    apex = apex - move;
    if (norm_m(move) > kApexStep_m * (1.0 + runs.mean_run)) continue;
    set_apex(plate, apex);
    differentiate_even_hips(plate, runs_from(plate.corners, apex));
    return true;
  }
  return false;
}

namespace {

/// Sets the apex over the pin, so that it follows the pin.
void set_apex_over_pin(Plate& plate, base::Point pin) {
  const std::size_t row = 2 * plate.corners.size();
  set_apex(plate, pin);
  plate.by(row, row) = plate.by(row + 1, row + 1) = 1.0;
}

/// What keeps a roof off these corners, as a plain sentence; empty when nothing does.
/// Why an outline bears no roof, by what it is the outline of.
struct Faults {
  base::Id one_place;
  base::Id wrong_way;
  base::Id no_bulge;
  base::Id twice_round;
};

std::optional<base::Fact> no_roof_because(const std::vector<Vec<double>>& corners,
                                          const std::vector<std::string>& labels,
                                          const Faults& faults) {
  const std::size_t n = corners.size();
  double round_rad = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    const auto& here = corners[i];
    const auto& after = corners[(i + 1) % n];
    if (!(norm(after - here) > kShortestSide_m))
      return base::Fact{
          faults.one_place,
          {{"first", base::Name{labels[i]}}, {"second", base::Name{labels[(i + 1) % n]}}}};
    round_rad += turn_rad(corners[(i + n - 1) % n], here, after);
  }
  if (round_rad < 0.0) return base::Fact{faults.wrong_way};
  for (std::size_t i = 0; i < n; ++i)
    if (!(turn_rad(corners[(i + n - 1) % n], corners[i], corners[(i + 1) % n]) >
          kFlattestCorner_rad))
      return base::Fact{faults.no_bulge, {{"corner", base::Name{labels[i]}}}};
  if (round_rad > 3.0 * std::numbers::pi) return base::Fact{faults.twice_round};
  return {};
}

void set_found_apex(Plate& plate, const Spec& spec, base::Point placed_center,
                    const FoundCorners& found, std::vector<base::Fact>& remarks) {
  set_apex(plate, placed_center);
  if (spec.apex_over == ApexOver::even_hips && !set_apex_for_even_hips(plate))
    remarks.push_back({"roof.no_even_hips"});
  if (spec.apex_over != ApexOver::pin) return;
  if (!found.pin) {
    remarks.push_back({"roof.pin_not_measured"});
    return;
  }
  set_apex_over_pin(plate, *found.pin);
  if (found.covariance.rows == 2 * found.corners.size())
    remarks.push_back({"roof.pin_taken_as_sure"});
}

bool apex_inside(const Plate& plate) {
  for (std::size_t i = 0; i < plate.corners.size(); ++i)
    if (!(surroundings(plate.window(i)).here.run > 0.0)) return false;
  return true;
}

}  // namespace

std::optional<Found> found_roof(const layout::Plan& plan, double plate_offset_m, const Roof& roof,
                                const FoundCorners& found, std::vector<base::Fact>& remarks) {
  assert(found.corners.size() == static_cast<std::size_t>(plan.polygon.sides));
  const auto labels = layout::corner_labels(plan.polygon.sides);
  const auto refuse = [&remarks](base::Fact reason) {
    remarks.push_back({"roof.planned_only", {{"reason", std::move(reason)}}});
    return std::nullopt;
  };
  if (auto reason = no_roof_because(lifted(found.corners), labels,
                                    {"roof.found_at_one_place", "roof.found_wrong_way",
                                     "roof.found_no_bulge", "roof.found_twice_round"}))
    return refuse(std::move(*reason));
  Found result{plate_over(found.corners, plate_offset_m, roof.height_m), {}};
  if (auto reason = no_roof_because(result.plate.corners, labels,
                                    {"roof.plate_at_one_place", "roof.plate_wrong_way",
                                     "roof.plate_no_bulge", "roof.plate_twice_round"}))
    return refuse(std::move(*reason));
  set_found_apex(result.plate, roof.spec, plan.center, found, remarks);
  if (!apex_inside(result.plate)) return refuse({"roof.apex_outside"});
  result.covariance = carried(result.plate, found.covariance);
  return result;
}

}  // namespace stakewright::roof
