#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "bay.hpp"
#include "figures.hpp"
#include "stick.hpp"

namespace stakewright::roof {
namespace {

constexpr double kRightAngle_rad = std::numbers::pi / 2.0;

Linear complement(const Linear& angle) {
  Linear result;
  result.value = kRightAngle_rad - angle.value;
  for (std::size_t k = 0; k < kWindowCoordinates; ++k) result.by[k] = -angle.by[k];
  return result;
}

/// Plumb and seat cuts, which hips and commons have alike.
void cut_ends(Bench& bench, PartKind kind, const std::string& at, const Linear& slope) {
  const Roof& roof = bench.roof;
  bench.cut(kind, at, "plumb", slope, plumb_setting(slope.value),
            roof.spec.rafter_depth_m / std::cos(slope.value));
  bench.cut(kind, at, "seat", complement(slope), seat_setting(slope.value),
            seat_length_m(roof, slope.value));
}

/// A cheek at `plan` from the stick's middle.  Its face in plan is as long as the part of
/// the thickness that it takes, over the sine: that is the lever.
void cut_cheek(Bench& bench, PartKind kind, const std::string& at, double slope_rad,
               const Linear& plan, double taken_m) {
  bench.cut(kind, at, "cheek", plan, cheek_setting(slope_rad, plan.value, taken_m),
            taken_m / std::sin(plan.value));
}

/// How far past the plate a hip's eave lies, in hip runs: the further of its two faces'.
double hip_tail_share(const Roof& roof, const Surroundings<double>& around) {
  const auto share = [&roof](const Face<double>& face) {
    return overhang(roof.spec, roof.flat_radius_m, face) / face.run;
  };
  return std::max(share(around.before), share(around.here));
}

/// The two faces of a hip's lower end, each against one fascia board.
void cut_hip_tail(Bench& bench) {
  const Roof& roof = bench.roof;
  const auto cut_side = [&bench, &roof](const std::string& at, const Linear& miter,
                                        const Linear& bevel) {
    const SawAngles<double> saw{miter.value, bevel.value};
    const double half = 0.5 * roof.spec.hip_m;
    bench.cut(PartKind::hip, at, "tail", miter, compound_setting(saw, saw.miter, half),
              roof.spec.rafter_depth_m / std::cos(saw.miter));
    bench.cut(PartKind::hip, at, "tail bevel", bevel, compound_setting(saw, saw.bevel, half), half);
  };
  const BayFigures& exact = bench.bay.exact;
  cut_side(bench.bay.names.corner + " left", exact.hip_tail.left, exact.hip_tail_bevel.left);
  cut_side(bench.bay.names.corner + " right", exact.hip_tail.right, exact.hip_tail_bevel.right);
}

void add_jack(Bench& bench, const std::string& at, const Linear& line, double angle_to_hip_rad,
              double from_corner_m) {
  const Face<double>& face = bench.around.here;
  const double slope_rad = bench.bay.exact.common_slope.value;
  Part part = named(PartKind::jack, at);
  part.from_corner_m = from_corner_m;
  finish_rafter(part, bench.roof, line.value, slope_rad,
                short_of_hip_m(bench.roof, angle_to_hip_rad),
                overhang(bench.roof.spec, bench.roof.flat_radius_m, face) / std::cos(slope_rad));
  part.stick_m += cheek_point_m(bench.roof, slope_rad, angle_to_hip_rad);
  bench.add(std::move(part), line);
}

}  // namespace

void add_hip(Bench& bench) {
  const Roof& roof = bench.roof;
  const BayFigures& exact = bench.bay.exact;
  const std::string& corner = bench.bay.names.corner;
  const double slope_rad = exact.hip_slope.value;
  Part part = named(PartKind::hip, corner);
  finish_rafter(part, roof, exact.hip_line.value, slope_rad, hip_top_m(roof),
                exact.hip_line.value * hip_tail_share(roof, bench.around));
  part.drop_m = hip_drop_m(roof, bench.around);
  bench.add(std::move(part), exact.hip_line);
  cut_ends(bench, PartKind::hip, corner, exact.hip_slope);
  const double half = 0.5 * roof.spec.hip_m;
  if (roof.hips_meet) {
    cut_cheek(bench, PartKind::hip, corner + " left", slope_rad, exact.hip_miter.left, half);
    cut_cheek(bench, PartKind::hip, corner + " right", slope_rad, exact.hip_miter.right, half);
  }
  bench.cut(PartKind::hip, corner + " left", "backing", exact.backing.left,
            rip_setting(exact.backing.left.value), half);
  bench.cut(PartKind::hip, corner + " right", "backing", exact.backing.right,
            rip_setting(exact.backing.right.value), half);
  cut_hip_tail(bench);
}

void add_common(Bench& bench) {
  const Roof& roof = bench.roof;
  const BayFigures& exact = bench.bay.exact;
  const Face<double>& face = bench.around.here;
  const std::string& side = bench.bay.names.side;
  const double slope_rad = exact.common_slope.value;
  Part part = named(PartKind::common, side);
  part.from_corner_m = face.foot;
  finish_rafter(part, roof, exact.common_line.value, slope_rad, common_top_m(roof, bench.around),
                overhang(roof.spec, roof.flat_radius_m, face) / std::cos(slope_rad));
  bench.add(std::move(part), exact.common_line);
  cut_ends(bench, PartKind::common, side, exact.common_slope);
  if (roof.hips_meet) {
    const double half = 0.5 * roof.spec.rafter_m;
    cut_cheek(bench, PartKind::common, side + " left", slope_rad, exact.to_hip.left, half);
    cut_cheek(bench, PartKind::common, side + " right", slope_rad, exact.to_hip.right, half);
  }
  const bool plumb = roof.spec.tail == Tail::plumb;
  const Linear tail = plumb ? exact.common_slope : Linear{};
  bench.cut(PartKind::common, side, "tail", tail, plumb_setting(tail.value),
            roof.spec.rafter_depth_m / std::cos(tail.value));
}

void add_jacks(Bench& bench) {
  const Roof& roof = bench.roof;
  const BayFigures& exact = bench.bay.exact;
  const double foot = bench.around.here.foot;
  const std::string left = bench.bay.names.side + " left";
  const std::string right = bench.bay.names.side + " right";
  for (std::size_t k = 0; k < exact.jacks_left.size(); ++k) {
    const double aside = static_cast<double>(k + 1) * roof.spec.spacing_m;
    add_jack(bench, fmt::format("{} {}", left, k + 1), exact.jacks_left[k], exact.to_hip.left.value,
             foot - aside);
    add_jack(bench, fmt::format("{} {}", right, k + 1), exact.jacks_right[k],
             exact.to_hip.right.value, foot + aside);
  }
  if (exact.jacks_left.empty()) return;
  const double slope_rad = exact.common_slope.value;
  cut_cheek(bench, PartKind::jack, left, slope_rad, exact.to_hip.left, roof.spec.rafter_m);
  cut_cheek(bench, PartKind::jack, right, slope_rad, exact.to_hip.right, roof.spec.rafter_m);
}

}  // namespace stakewright::roof
