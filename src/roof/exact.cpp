#include "exact.hpp"

#include <ceres/jet.h>

#include "figures.hpp"

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

/// Eave corner: on a level eave the plate's corner scaled from the apex, so that it
/// lies on the hip; on an even one where both lines outside meet in plan.
Vec<Number> eave_corner(const Roof& roof, const Vec<Number>& corner, const Vec<Number>& apex,
                        const Face<Number>& left, const Face<Number>& right) {
  const Number planned(roof.spec.overhang_m);
  if (roof.spec.eave == Eave::even) return shifted_corner(corner, left.out, right.out, planned);
  return corner + (planned / Number(roof.flat_radius_m)) * (corner - apex);
}

void find_hip(BayFigures& bay, const Roof& roof, const Surroundings<Number>& around) {
  const bool plumb = roof.spec.tail == Tail::plumb;
  const Hip<Number>& hip = around.left;
  bay.hip_line = linear(hip.line);
  bay.hip_slope = linear(slope(hip));
  bay.backing = {linear(backing(hip, around.before, -1.0)), linear(backing(hip, around.here, 1.0))};
  bay.hip_miter = {linear(angle_to_miter(hip, around.hip_before)),
                   linear(angle_to_miter(hip, around.right))};
  const auto left = hip_tail(hip, fascia_board(around.before, plumb), -1.0, plumb);
  const auto right = hip_tail(hip, fascia_board(around.here, plumb), 1.0, plumb);
  bay.hip_tail = {linear(left.miter), linear(right.miter)};
  bay.hip_tail_bevel = {linear(left.bevel), linear(right.bevel)};
}

void find_common_and_jacks(BayFigures& bay, const Roof& roof, const Surroundings<Number>& around,
                           const Vec<Number>& apex) {
  const Face<Number>& face = around.here;
  bay.common_line = linear(common_line(face));
  bay.common_slope = linear(slope(face));
  const Number to_left = angle_to_hip(face, around.left);
  const Number to_right = angle_to_hip(face, around.right);
  bay.to_hip = {linear(to_left), linear(to_right)};
  for (int k = 1; k <= roof.jacks; ++k) {
    const Number aside(k * roof.spec.spacing_m);
    bay.jacks_left.push_back(linear(line_to_hip(face, face.foot - aside, around.left, apex)));
    bay.jacks_right.push_back(linear(line_to_hip(face, face.foot + aside, around.right, apex)));
  }
  const Number last(roof.jacks * roof.spec.spacing_m);
  bay.end_block = {linear(end_block(roof.spec, face.foot - last, to_left)),
                   linear(end_block(roof.spec, face.side - face.foot - last, to_right))};
}

void find_sheet(BayFigures& bay, const Roof& roof, const Surroundings<Number>& around) {
  const Face<Number>& face = around.here;
  const Number out = overhang(roof.spec, roof.flat_radius_m, face);
  bay.sheet_height = linear(common_line(face) * (Number(1.0) + out / face.run));
  bay.sheet_edge = {linear(edge_angle(face, face.along, around.left)),
                    linear(edge_angle(face, Number(-1.0) * face.along, around.right))};
}

void find_fascia(BayFigures& bay, const Roof& roof, const Surroundings<Number>& around,
                 const Window<Number>& window) {
  const bool plumb = roof.spec.tail == Tail::plumb;
  const Face<Number>& face = around.here;
  const Number out = overhang(roof.spec, roof.flat_radius_m, face);
  bay.overhang = linear(out);
  bay.drop = linear(out * Number(roof.height_m) / face.run);
  bay.eave_line =
      linear(norm(eave_corner(roof, window.plate[2], window.apex, face, around.after) -
                  eave_corner(roof, window.plate[1], window.apex, around.before, face)));
  const Board<Number> board = fascia_board(face, plumb);
  const auto left = board_end(board, fascia_board(around.before, plumb), Number(-1.0) * face.along);
  const auto right = board_end(board, fascia_board(around.after, plumb), face.along);
  bay.fascia_miter = {linear(left.miter), linear(right.miter)};
  bay.fascia_bevel = {linear(left.bevel), linear(right.bevel)};
}

}  // namespace

BayFigures exact_figures(const Roof& roof, const Window<double>& window) {
  const Window<Number> at = with_derivatives(window);
  const Surroundings<Number> around = surroundings(at);
  BayFigures bay;
  find_hip(bay, roof, around);
  find_common_and_jacks(bay, roof, around, at.apex);
  find_fascia(bay, roof, around, at);
  find_sheet(bay, roof, around);
  bay.side = linear(around.here.side);
  bay.half_turn = {linear(half_turn(around.here, around.before)),
                   linear(half_turn(around.here, around.after))};
  return bay;
}

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

}  // namespace stakewright::roof
