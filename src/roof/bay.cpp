#include "bay.hpp"

#include <ceres/jet.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "figures.hpp"
#include "stick.hpp"

namespace stakewright::roof {
namespace {

using Number = ceres::Jet<double, static_cast<int>(kWindowCoordinates)>;

Linear linear(const Number& number) {
  Linear result;
  result.value = number.a;
  for (std::size_t k = 0; k < kWindowCoordinates; ++k)
    result.by[k] = number.v(static_cast<Eigen::Index>(k));
  return result;
}

Vec<Number> variable(const Vec<double>& at, int first) {
  return {Number(at.x, first), Number(at.y, first + 1), Number(at.z)};
}

Window<Number> with_derivatives(const Window<double>& window) {
  Window<Number> result;
  int first = 0;
  for (std::size_t k = 0; k < window.plate.size(); ++k, first += 2)
    result.plate[k] = variable(window.plate[k], first);
  result.apex = variable(window.apex, first);
  return result;
}

/// The bench a bay is made on: its geometry twice, with derivatives for what
/// decides a fit and in plain numbers for the rest.
struct Bench {
  const Roof& roof;
  const Window<Number> window;
  const Surroundings<Number> exact;
  const Surroundings<double> plain;
  const std::string corner;
  const std::string side;
  Bay bay;

  Bench(const Roof& the_roof, const Window<double>& the_window, std::string the_corner,
        std::string the_side)
      : roof(the_roof),
        window(with_derivatives(the_window)),
        exact(surroundings(window)),
        plain(surroundings(the_window)),
        corner(std::move(the_corner)),
        side(std::move(the_side)) {}

  void add(Part part, const Number& line) { bay.parts.push_back({std::move(part), linear(line)}); }

  void cut(PartKind kind, std::string at, std::string name, const Number& angle,
           const Setting& setting, double lever_m) {
    bay.cuts.push_back({{kind, std::move(at), std::move(name), {}, Fit::pattern, setting},
                        linear(angle),
                        lever_m});
  }

  /// Plumb and seat cuts, which hips and commons have alike.
  void cut_rafter(PartKind kind, const std::string& at, const Number& rafter_slope) {
    const double angle = rafter_slope.a;
    const double depth = roof.spec.rafter_depth_m;
    cut(kind, at, "plumb", rafter_slope, plumb_setting(angle), depth / std::cos(angle));
    cut(kind, at, "seat", Number(std::numbers::pi / 2.0) - rafter_slope, seat_setting(angle),
        seat_length_m(roof, angle));
  }
};

/// Level distance from plate line to fascia over one face.
template <class T>
T overhang(const Roof& roof, const Face<T>& face) {
  const T planned(roof.spec.overhang_m);
  return roof.spec.eave == Eave::even ? planned : planned * face.run / T(roof.flat_radius_m);
}

/// Eave corner: on a level eave the plate's corner scaled from the apex, so that it
/// lies on the hip; on an even one where both lines outside meet in plan.
Vec<Number> eave_corner(const Roof& roof, const Vec<Number>& corner, const Vec<Number>& apex,
                        const Face<Number>& left, const Face<Number>& right) {
  const Number planned(roof.spec.overhang_m);
  if (roof.spec.eave == Eave::even) return shifted_corner(corner, left.out, right.out, planned);
  return corner + (planned / Number(roof.flat_radius_m)) * (corner - apex);
}

/// Level distances from the upright line through the apex to where a hip's eave ends,
/// in hip runs past the plate: the further of its two faces'.
double hip_tail_share(const Roof& roof, const Surroundings<double>& around) {
  return std::max(overhang(roof, around.before) / around.before.run,
                  overhang(roof, around.here) / around.here.run);
}

Part named(PartKind kind, const std::string& at) {
  Part part;
  part.kind = kind;
  part.at = at;
  return part;
}

void add_hip(Bench& bench) {
  const Roof& roof = bench.roof;
  const Hip<double>& hip = bench.plain.left;
  const double angle = slope(hip);
  Part part = named(PartKind::hip, bench.corner);
  finish_rafter(part, roof, hip.line, angle, hip_top_m(roof),
                hip.line * hip_tail_share(roof, bench.plain));
  part.drop_m = hip_drop_m(roof, bench.plain);
  bench.add(std::move(part), bench.exact.left.line);
  bench.cut_rafter(PartKind::hip, bench.corner, slope(bench.exact.left));
}

/// The backing of one side of the hip; `side` as for `backing`.
void add_backing(Bench& bench, const std::string& at, const Face<Number>& face, double side) {
  const Number angle = backing(bench.exact.left, face, side);
  bench.cut(PartKind::hip, at, "backing", angle, rip_setting(angle.a), 0.5 * bench.roof.spec.hip_m);
}

void add_common(Bench& bench) {
  const Roof& roof = bench.roof;
  const Face<double>& face = bench.plain.here;
  const double angle = slope(face);
  const Number line = common_line(bench.exact.here);
  Part part = named(PartKind::common, bench.side);
  part.from_corner_m = face.foot;
  finish_rafter(part, roof, line.a, angle, common_top_m(roof, bench.plain),
                overhang(roof, face) / std::cos(angle));
  bench.add(std::move(part), line);
  bench.cut_rafter(PartKind::common, bench.side, slope(bench.exact.here));
}

SawAngles<double> plain(const SawAngles<Number>& saw) { return {saw.mitre.a, saw.bevel.a}; }

/// One end of the fascia board; returns what the outer top edge gains there over the eave line.
double add_fascia_end(Bench& bench, const std::string& at, const Face<Number>& neighbour,
                      double way) {
  const Roof& roof = bench.roof;
  const bool plumb = roof.spec.tail == Tail::plumb;
  const Board<Number> board = fascia_board(bench.exact.here, plumb);
  const Vec<Number> axis = Number(way) * bench.exact.here.along;
  const SawAngles<Number> saw = board_end(board, fascia_board(neighbour, plumb), axis);
  const auto settings = plain(saw);
  bench.cut(PartKind::fascia, at, "mitre", saw.mitre, board_setting(settings, settings.mitre),
            fascia_width_m(roof, bench.plain.here));
  bench.cut(PartKind::fascia, at, "bevel", saw.bevel, board_setting(settings, settings.bevel),
            roof.spec.fascia_m);
  return roof.spec.fascia_m * std::tan(settings.bevel) / std::cos(settings.mitre);
}

void add_fascia(Bench& bench) {
  const Roof& roof = bench.roof;
  const auto& exact = bench.exact;
  const auto& [p0, left, right, p3] = bench.window.plate;
  const Vec<Number> from = eave_corner(roof, left, bench.window.apex, exact.before, exact.here);
  const Vec<Number> to = eave_corner(roof, right, bench.window.apex, exact.here, exact.after);
  const Number line = norm(to - from);
  Part part = named(PartKind::fascia, bench.side);
  part.overall_m = line.a + add_fascia_end(bench, bench.side + " left", exact.before, -1.0) +
                   add_fascia_end(bench, bench.side + " right", exact.after, 1.0);
  bench.add(std::move(part), line);
}

void add_eave(Bench& bench) {
  const Face<Number>& face = bench.exact.here;
  const Number out = overhang(bench.roof, face);
  const Number drop = out * Number(bench.roof.height_m) / face.run;
  bench.bay.eaves.push_back({bench.side, linear(out), linear(drop)});
}

}  // namespace

std::array<Linear, 2> plate_corner(const Vec<double>& before, const Vec<double>& here,
                                   const Vec<double>& after, double offset_m) {
  const Vec<Number> a = variable(before, 0);
  const Vec<Number> b = variable(here, 2);
  const Vec<Number> c = variable(after, 4);
  const Vec<Number> up = upright<Number>();
  const Vec<Number> corner =
      shifted_corner(b, cross(up, unit(b - a)), cross(up, unit(c - b)), Number(offset_m));
  return {linear(corner.x), linear(corner.y)};
}

Bay bay(const Roof& roof, const Window<double>& window, const std::string& corner,
        const std::string& side) {
  Bench bench(roof, window, corner, side);
  add_hip(bench);
  add_backing(bench, corner + " left", bench.exact.before, -1.0);
  add_backing(bench, corner + " right", bench.exact.here, 1.0);
  add_common(bench);
  add_fascia(bench);
  add_eave(bench);
  return std::move(bench.bay);
}

}  // namespace stakewright::roof
