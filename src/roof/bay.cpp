#include "bay.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "faces.hpp"
#include "figures.hpp"
#include "stick.hpp"

namespace stakewright::roof {
namespace {

constexpr double kRightAngle_rad = std::numbers::pi / 2.0;

/// What a bay is made on: the roof, and the bay's geometry in plain numbers.
struct Bench {
  const Roof& roof;
  const Surroundings<double> around;
  Bay bay;

  void add(Part part, const Linear& line) { bay.parts.push_back({std::move(part), line}); }

  void cut(PartKind kind, const Place& at, CutName name, const Linear& angle,
           const Setting& setting, double lever_m) {
    Cut one{kind, at, name};
    one.setting = setting;
    bay.cuts.push_back({std::move(one), angle, lever_m});
  }
};

Linear complement(const Linear& angle) {
  Linear result;
  result.value = kRightAngle_rad - angle.value;
  for (std::size_t k = 0; k < kWindowCoordinates; ++k) result.by[k] = -angle.by[k];
  return result;
}

/// Plumb and seat cuts, which hips and commons have alike.
void cut_ends(Bench& bench, PartKind kind, const Place& at, const Linear& slope) {
  const Roof& roof = bench.roof;
  bench.cut(kind, at, CutName::plumb, slope, plumb_setting(slope.value),
            roof.spec.rafter_depth_m / std::cos(slope.value));
  bench.cut(kind, at, CutName::seat, complement(slope), seat_setting(slope.value),
            seat_length_m(roof, slope.value));
}

/// A cheek on each hand, at an angle in plan from the stick's middle.  Its face in plan is as long
/// as the part of the thickness that it takes, over the sine: that is the lever.
void cut_cheeks(Bench& bench, PartKind kind, const Place& at, double slope_rad, const Pair& plan,
                double taken_m) {
  const auto cheek = [&](Hand hand, const Linear& angle) {
    bench.cut(kind, at.on(hand), CutName::cheek, angle,
              cheek_setting(slope_rad, angle.value, taken_m), taken_m / std::sin(angle.value));
  };
  cheek(Hand::left, plan.left);
  cheek(Hand::right, plan.right);
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
  const auto cut_side = [&bench, &roof](Hand hand, const Linear& miter, const Linear& bevel) {
    const SawAngles<double> saw{miter.value, bevel.value};
    const double half = 0.5 * roof.spec.hip_m;
    const Place at = bench.bay.corner.on(hand);
    bench.cut(PartKind::hip, at, CutName::tail, miter, compound_setting(saw, saw.miter, half),
              roof.spec.rafter_depth_m / std::cos(saw.miter));
    bench.cut(PartKind::hip, at, CutName::tail_bevel, bevel, compound_setting(saw, saw.bevel, half),
              half);
  };
  const BayFigures& exact = bench.bay.exact;
  cut_side(Hand::left, exact.hip_tail.left, exact.hip_tail_bevel.left);
  cut_side(Hand::right, exact.hip_tail.right, exact.hip_tail_bevel.right);
}

void add_hip(Bench& bench) {
  const Roof& roof = bench.roof;
  const BayFigures& exact = bench.bay.exact;
  const Place corner = bench.bay.corner;
  const double slope_rad = exact.hip_slope.value;
  Part part{PartKind::hip, corner};
  finish_rafter(part, roof, exact.hip_line.value, slope_rad, hip_top_m(roof),
                exact.hip_line.value * hip_tail_share(roof, bench.around));
  part.drop_m = hip_drop_m(roof, bench.around);
  bench.add(std::move(part), exact.hip_line);
  cut_ends(bench, PartKind::hip, corner, exact.hip_slope);
  const double half = 0.5 * roof.spec.hip_m;
  if (roof.hips_meet) cut_cheeks(bench, PartKind::hip, corner, slope_rad, exact.hip_miter, half);
  bench.cut(PartKind::hip, corner.on(Hand::left), CutName::backing, exact.backing.left,
            rip_setting(exact.backing.left.value), half);
  bench.cut(PartKind::hip, corner.on(Hand::right), CutName::backing, exact.backing.right,
            rip_setting(exact.backing.right.value), half);
  cut_hip_tail(bench);
}

void add_common(Bench& bench) {
  const Roof& roof = bench.roof;
  const BayFigures& exact = bench.bay.exact;
  const Face<double>& face = bench.around.here;
  const Place side = bench.bay.side;
  const double slope_rad = exact.common_slope.value;
  Part part{PartKind::common, side};
  part.from_corner_m = face.foot;
  finish_rafter(part, roof, exact.common_line.value, slope_rad, common_top_m(roof, bench.around),
                overhang(roof.spec, roof.flat_radius_m, face) / std::cos(slope_rad));
  bench.add(std::move(part), exact.common_line);
  cut_ends(bench, PartKind::common, side, exact.common_slope);
  if (roof.hips_meet)
    cut_cheeks(bench, PartKind::common, side, slope_rad, exact.to_hip, 0.5 * roof.spec.rafter_m);
  const bool plumb = roof.spec.tail == Tail::plumb;
  const Linear tail = plumb ? exact.common_slope : Linear{};
  bench.cut(PartKind::common, side, CutName::tail, tail, plumb_setting(tail.value),
            roof.spec.rafter_depth_m / std::cos(tail.value));
}

void add_jack(Bench& bench, const Place& at, const Linear& line, double angle_to_hip_rad,
              double from_corner_m) {
  const Face<double>& face = bench.around.here;
  const double slope_rad = bench.bay.exact.common_slope.value;
  Part part{PartKind::jack, at};
  part.from_corner_m = from_corner_m;
  finish_rafter(part, bench.roof, line.value, slope_rad,
                short_of_hip_m(bench.roof, angle_to_hip_rad),
                overhang(bench.roof.spec, bench.roof.flat_radius_m, face) / std::cos(slope_rad));
  part.stick_m += cheek_point_m(bench.roof, slope_rad, angle_to_hip_rad);
  bench.add(std::move(part), line);
}

void add_jacks(Bench& bench) {
  const Roof& roof = bench.roof;
  const BayFigures& exact = bench.bay.exact;
  const double foot = bench.around.here.foot;
  const Place side = bench.bay.side;
  for (std::size_t k = 0; k < exact.jacks_left.size(); ++k) {
    const int number = static_cast<int>(k) + 1;
    const double aside = number * roof.spec.spacing_m;
    add_jack(bench, side.on(Hand::left, number), exact.jacks_left[k], exact.to_hip.left.value,
             foot - aside);
    add_jack(bench, side.on(Hand::right, number), exact.jacks_right[k], exact.to_hip.right.value,
             foot + aside);
  }
  if (exact.jacks_left.empty()) return;
  cut_cheeks(bench, PartKind::jack, side, exact.common_slope.value, exact.to_hip,
             roof.spec.rafter_m);
}

void add_blocking(Bench& bench) {
  const Roof& roof = bench.roof;
  const BayFigures& exact = bench.bay.exact;
  Linear between;
  between.value = roof.spec.spacing_m - roof.spec.rafter_m;
  const auto add_side = [&](Hand hand, const Linear& last, const Linear& to_hip) {
    for (int k = 1; k <= roof.jacks + (roof.end_blocks ? 1 : 0); ++k) {
      const Linear& line = k > roof.jacks ? last : between;
      Part part{PartKind::blocking, bench.bay.side.on(hand, k)};
      part.overall_m = part.stick_m = line.value;
      if (k > roof.jacks) part.stick_m += 0.5 * roof.spec.rafter_m * std::tan(to_hip.value);
      bench.add(std::move(part), line);
    }
    if (!roof.end_blocks) return;
    bench.cut(PartKind::blocking, bench.bay.side.on(hand), CutName::miter, to_hip,
              miter_setting(to_hip.value), roof.spec.rafter_m / std::cos(to_hip.value));
  };
  add_side(Hand::left, exact.end_block.left, exact.to_hip.left);
  add_side(Hand::right, exact.end_block.right, exact.to_hip.right);
}

/// One end of the fascia board; returns what the outer top edge gains there over the eave line.
double cut_fascia_end(Bench& bench, Hand end, const Linear& miter, const Linear& bevel) {
  const Roof& roof = bench.roof;
  const SawAngles<double> saw{miter.value, bevel.value};
  const double thickness = roof.spec.fascia_m;
  const Place at = bench.bay.side.on(end);
  bench.cut(PartKind::fascia, at, CutName::miter, miter,
            compound_setting(saw, saw.miter, thickness),
            fascia_width_m(roof, bench.bay.exact.common_slope.value));
  bench.cut(PartKind::fascia, at, CutName::bevel, bevel,
            compound_setting(saw, saw.bevel, thickness), thickness);
  return thickness * std::tan(saw.bevel) / std::cos(saw.miter);
}

void add_fascia(Bench& bench) {
  const BayFigures& exact = bench.bay.exact;
  Part part{PartKind::fascia, bench.bay.side};
  part.overall_m =
      exact.eave_line.value +
      cut_fascia_end(bench, Hand::left, exact.fascia_miter.left, exact.fascia_bevel.left) +
      cut_fascia_end(bench, Hand::right, exact.fascia_miter.right, exact.fascia_bevel.right);
  part.stick_m = part.overall_m;
  bench.add(std::move(part), exact.eave_line);
}

void add_beam_and_post(Bench& bench) {
  const Spec& spec = bench.roof.spec;
  const BayFigures& exact = bench.bay.exact;
  const Place side = bench.bay.side;
  Part beam{PartKind::beam, side};
  beam.overall_m = beam.stick_m = exact.side.value;
  bench.add(std::move(beam), exact.side);
  const auto cut_end = [&](Hand end, const Linear& angle) {
    bench.cut(PartKind::beam, side.on(end), CutName::miter, angle, miter_setting(angle.value),
              spec.beam_m / std::cos(angle.value));
  };
  cut_end(Hand::left, exact.half_turn.left);
  cut_end(Hand::right, exact.half_turn.right);
  bench.cut(PartKind::post, bench.bay.corner, CutName::rip, exact.half_turn.left,
            rip_setting(exact.half_turn.left.value), 0.5 * spec.post_m);
}

void cut_hub_corner(Bench& bench) {
  const Spec& spec = bench.roof.spec;
  if (spec.hub_m <= 0.0) return;
  // The hub's faces stand square to the hips, so that they turn as the hips do.
  const Linear& turn = bench.bay.exact.hip_miter.right;
  bench.cut(PartKind::hub, bench.bay.side, CutName::rip, turn, rip_setting(turn.value),
            0.5 * spec.hip_m);
}

}  // namespace

std::vector<Bay> bays(const Roof& roof, const Plate& plate) {
  std::vector<Bay> result;
  for (std::size_t i = 0; i < plate.corners.size(); ++i) {
    const Window<double> window = plate.window(i);
    Bench bench{roof,
                surroundings(window),
                {Place::at_corner(i),
                 Place::at_side(i, plate.corners.size()),
                 exact_figures(roof, window),
                 {},
                 {}}};
    add_hip(bench);
    add_common(bench);
    add_jacks(bench);
    add_blocking(bench);
    add_fascia(bench);
    add_beam_and_post(bench);
    cut_hub_corner(bench);
    result.push_back(std::move(bench.bay));
  }
  return result;
}

}  // namespace stakewright::roof
