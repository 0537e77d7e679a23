#include <fmt/format.h>

#include <cmath>
#include <utility>

#include "bay.hpp"
#include "figures.hpp"
#include "stick.hpp"

namespace stakewright::roof {
namespace {

/// One end of the fascia board; returns what the outer top edge gains there over the eave line.
double cut_fascia_end(Bench& bench, const std::string& at, const Linear& miter,
                      const Linear& bevel) {
  const Roof& roof = bench.roof;
  const SawAngles<double> saw{miter.value, bevel.value};
  const double thickness = roof.spec.fascia_m;
  bench.cut(PartKind::fascia, at, "miter", miter, compound_setting(saw, saw.miter, thickness),
            fascia_width_m(roof, bench.bay.exact.common_slope.value));
  bench.cut(PartKind::fascia, at, "bevel", bevel, compound_setting(saw, saw.bevel, thickness),
            thickness);
  return thickness * std::tan(saw.bevel) / std::cos(saw.miter);
}

}  // namespace

void add_fascia(Bench& bench) {
  const BayFigures& exact = bench.bay.exact;
  const std::string& side = bench.bay.names.side;
  Part part = named(PartKind::fascia, side);
  part.overall_m =
      exact.eave_line.value +
      cut_fascia_end(bench, side + " left", exact.fascia_miter.left, exact.fascia_bevel.left) +
      cut_fascia_end(bench, side + " right", exact.fascia_miter.right, exact.fascia_bevel.right);
  part.stick_m = part.overall_m;
  bench.add(std::move(part), exact.eave_line);
}

void add_blocking(Bench& bench) {
  const Roof& roof = bench.roof;
  const BayFigures& exact = bench.bay.exact;
  Linear between;
  between.value = roof.spec.spacing_m - roof.spec.rafter_m;
  const auto add_side = [&bench, &roof, &between](const std::string& at, const Linear& last,
                                                  const Linear& to_hip) {
    for (int k = 1; k <= roof.jacks + (roof.end_blocks ? 1 : 0); ++k) {
      const Linear& line = k > roof.jacks ? last : between;
      Part part = named(PartKind::blocking, fmt::format("{} {}", at, k));
      part.overall_m = part.stick_m = line.value;
      if (k > roof.jacks) part.stick_m += 0.5 * roof.spec.rafter_m * std::tan(to_hip.value);
      bench.add(std::move(part), line);
    }
    if (!roof.end_blocks) return;
    bench.cut(PartKind::blocking, at, "miter", to_hip, miter_setting(to_hip.value),
              roof.spec.rafter_m / std::cos(to_hip.value));
  };
  const std::string& side = bench.bay.names.side;
  add_side(side + " left", exact.end_block.left, exact.to_hip.left);
  add_side(side + " right", exact.end_block.right, exact.to_hip.right);
}

void add_beam_and_post(Bench& bench) {
  const Spec& spec = bench.roof.spec;
  const BayFigures& exact = bench.bay.exact;
  const std::string& side = bench.bay.names.side;
  Part beam = named(PartKind::beam, side);
  beam.overall_m = beam.stick_m = exact.side.value;
  bench.add(std::move(beam), exact.side);
  const auto cut_end = [&bench, &spec](const std::string& at, const Linear& angle) {
    bench.cut(PartKind::beam, at, "miter", angle, miter_setting(angle.value),
              spec.beam_m / std::cos(angle.value));
  };
  cut_end(side + " left", exact.half_turn.left);
  cut_end(side + " right", exact.half_turn.right);
  bench.cut(PartKind::post, bench.bay.names.corner, "rip", exact.half_turn.left,
            rip_setting(exact.half_turn.left.value), 0.5 * spec.post_m);
}

void add_hub_corner(Bench& bench) {
  const Spec& spec = bench.roof.spec;
  if (spec.hub_m <= 0.0) return;
  // The hub's faces stand square to the hips, so that they turn as the hips do.
  const Linear& turn = bench.bay.exact.hip_miter.right;
  bench.cut(PartKind::hub, bench.bay.names.side, "rip", turn, rip_setting(turn.value),
            0.5 * spec.hip_m);
}

}  // namespace stakewright::roof
