// Every line length and cut angle of the roof as a small function of its faces
// and hips, on any scalar.  docs/methods/roof.md.
#pragma once

#include <cmath>

#include "faces.hpp"
#include "stakewright/roof/spec.hpp"

namespace stakewright::roof {

/// Slope from level.
template <class T>
T slope(const Face<T>& face) {
  using std::atan2;
  return atan2(-face.down.z, dot(face.down, face.out));
}

template <class T>
T slope(const Hip<T>& hip) {
  using std::atan2;
  return atan2(hip.axis.z, dot(hip.axis, hip.in));
}

/// Along the slope from the plate line to the upright line through the apex.
template <class T>
T common_line(const Face<T>& face) {
  return face.run / dot(face.down, face.out);
}

/// Up the slope from a point of the plate line to the upright plane through a hip.
template <class T>
T line_to_hip(const Face<T>& face, const T& from_corner, const Hip<T>& hip, const Vec<T>& apex) {
  const Vec<T> start = face.corner + from_corner * face.along;
  return -(dot(hip.right, apex - start) / dot(hip.right, face.down));
}

/// Tilt of a face about the hip, from square across the hip's top edge.
/// `side` is 1 for the face on the hip's right, -1 for the one on its left.
template <class T>
T backing(const Hip<T>& hip, const Face<T>& face, double side) {
  using std::atan2;
  return atan2(T(side) * dot(face.normal, hip.right), dot(face.normal, hip.top));
}

/// Angle in plan between a common or jack and a hip.
template <class T>
T angle_to_hip(const Face<T>& face, const Hip<T>& hip) {
  return level_angle(T(-1.0) * face.out, hip.in);
}

/// Along the plate from the side of a rafter to the side of the hip at the corner; `room` is
/// from the rafter's middle to the corner.
template <class T>
T end_block(const Spec& spec, const T& room, const T& angle_to_the_hip) {
  using std::cos;
  return room - T(0.5 * spec.rafter_m) - T(0.5 * spec.hip_m) / cos(angle_to_the_hip);
}

/// Angle in the face between the eave, in the direction `along`, and a hip.
template <class T>
T edge_angle(const Face<T>& face, const Vec<T>& along, const Hip<T>& hip) {
  using std::atan2;
  return atan2(-dot(hip.axis, face.down), dot(hip.axis, along));
}

/// Angle in plan between the middle of a hip and its miter with a neighboring hip.
template <class T>
T angle_to_miter(const Hip<T>& hip, const Hip<T>& neighbor) {
  return T(0.5) * level_angle(hip.in, neighbor.in);
}

/// Half the angle by which the way round turns between two sides: miter of their beams, and
/// rip of the post under their corner.
template <class T>
T half_turn(const Face<T>& face, const Face<T>& neighbor) {
  return T(0.5) * level_angle(face.out, neighbor.out);
}

/// Level distance from plate line to fascia over one face.
template <class T>
T overhang(const Spec& spec, double planned_flat_radius_m, const Face<T>& face) {
  const T planned(spec.overhang_m);
  return spec.eave == Eave::even ? planned : planned * face.run / T(planned_flat_radius_m);
}

/// A fascia board: the outer face's normal and the direction of its width, top edge up.
template <class T>
struct Board {
  Vec<T> out;
  Vec<T> width;
};

/// Square tails lean the board square to the slope; plumb tails stand it upright.
template <class T>
Board<T> fascia_board(const Face<T>& face, bool plumb) {
  if (plumb) return {face.out, upright<T>()};
  return {face.down, face.normal};
}

/// The end of a board that runs along `axis` to its neighbor: cut in the plane
/// that holds the meets of both outer and of both inner faces, for boards of one thickness.
template <class T>
SawAngles<T> board_end(const Board<T>& board, const Board<T>& neighbor, const Vec<T>& axis) {
  return saw_angles(neighbor.out - board.out, Stick<T>{axis, board.width, board.out});
}

/// The end of a hip against the inner side of a fascia board: miter on the hip's side, bevel.
/// The miter is from square: toward plumb for plumb tails, the other way for square ones.
template <class T>
SawAngles<T> hip_tail(const Hip<T>& hip, const Board<T>& board, double side, bool plumb) {
  const T toward(plumb ? -1.0 : 1.0);
  return saw_angles(board.out,
                    Stick<T>{T(-1.0) * hip.axis, toward * hip.top, T(-side) * hip.right});
}

}  // namespace stakewright::roof
