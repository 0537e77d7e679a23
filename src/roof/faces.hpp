// The roof's geometry round one side of the plate: faces, hips, and the sticks
// and cutting planes that all parts and cuts are made of.
//
// Corners run clockwise seen from above, so that outward is to the left of the
// way round, and "right" of somebody who looks out is the way round.
#pragma once

#include <array>
#include <cmath>

namespace stakewright::roof {

/// A vector in space on any scalar: double, or a number that carries its own derivatives.
/// x right, y forward, z up.
template <class T>
struct Vec {
  T x;
  T y;
  T z;
};

template <class T>
Vec<T> operator+(const Vec<T>& a, const Vec<T>& b) {
  return {a.x + b.x, a.y + b.y, a.z + b.z};
}

template <class T>
Vec<T> operator-(const Vec<T>& a, const Vec<T>& b) {
  return {a.x - b.x, a.y - b.y, a.z - b.z};
}

template <class T>
Vec<T> operator*(const T& k, const Vec<T>& a) {
  return {k * a.x, k * a.y, k * a.z};
}

template <class T>
T dot(const Vec<T>& a, const Vec<T>& b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}

template <class T>
Vec<T> cross(const Vec<T>& a, const Vec<T>& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

template <class T>
T norm(const Vec<T>& a) {
  using std::sqrt;
  return sqrt(dot(a, a));
}

template <class T>
Vec<T> unit(const Vec<T>& a) {
  return (T(1.0) / norm(a)) * a;
}

template <class T>
Vec<T> level(const Vec<T>& a) {
  return {a.x, a.y, T(0.0)};
}

template <class T>
Vec<T> upright() {
  return {T(0.0), T(0.0), T(1.0)};
}

/// Four plate corners in order and the apex.  The side looked at runs from the
/// second corner to the third; the plate lies at height nothing.
template <class T>
struct Window {
  std::array<Vec<T>, 4> plate;
  Vec<T> apex;
};

/// A face plane: through its plate side and the apex.
template <class T>
struct Face {
  Vec<T> corner;  ///< left corner of its side
  Vec<T> along;   ///< unit, level, left to right
  Vec<T> out;     ///< unit, level, square to the side
  Vec<T> normal;  ///< unit, up and out
  Vec<T> down;    ///< unit, down the slope
  T side;         ///< length
  T run;          ///< level, side to apex, square to the side
  T foot;         ///< the left corner to where that run meets the side
};

template <class T>
Face<T> face(const Vec<T>& left, const Vec<T>& right, const Vec<T>& apex) {
  const Vec<T> to_apex = apex - left;
  Face<T> result;
  result.corner = left;
  result.side = norm(right - left);
  result.along = unit(right - left);
  result.out = cross(upright<T>(), result.along);
  result.normal = unit(cross(to_apex, result.along));
  result.down = cross(result.normal, result.along);
  result.run = -dot(to_apex, result.out);
  result.foot = dot(to_apex, result.along);
  return result;
}

/// A stick: its axis, the direction of its width and the normal of the face that is marked.
template <class T>
struct Stick {
  Vec<T> axis;
  Vec<T> width;
  Vec<T> face;
};

/// The hip of a corner: from the corner up to the apex.
template <class T>
struct Hip {
  Vec<T> in;     ///< unit, level, corner to apex
  Vec<T> axis;   ///< unit, up the slope
  Vec<T> top;    ///< unit, square to the axis, in the upright plane through it
  Vec<T> right;  ///< unit, level, to the right of somebody who looks out
  T run;
  T line;
};

template <class T>
Hip<T> hip(const Vec<T>& corner, const Vec<T>& apex) {
  const Vec<T> to_apex = apex - corner;
  Hip<T> result;
  result.in = unit(level(to_apex));
  result.axis = unit(to_apex);
  result.right = cross(upright<T>(), result.in);
  result.top = cross(result.axis, result.right);
  result.run = norm(level(to_apex));
  result.line = norm(to_apex);
  return result;
}

/// The side looked at with the faces and hips round it: the hip of its left corner, of its
/// right corner, and the one before.
template <class T>
struct Surroundings {
  Face<T> before;
  Face<T> here;
  Face<T> after;
  Hip<T> hip_before;
  Hip<T> left;
  Hip<T> right;
};

template <class T>
Surroundings<T> surroundings(const Window<T>& window) {
  const auto& [p0, p1, p2, p3] = window.plate;
  return {face(p0, p1, window.apex), face(p1, p2, window.apex), face(p2, p3, window.apex),
          hip(p0, window.apex),      hip(p1, window.apex),      hip(p2, window.apex)};
}

/// The corner where two sides meet once both are shifted outward by `offset`,
/// from the shift's equal share on both outward normals.
template <class T>
Vec<T> shifted_corner(const Vec<T>& corner, const Vec<T>& out_before, const Vec<T>& out_after,
                      const T& offset) {
  return corner + (offset / (T(1.0) + dot(out_before, out_after))) * (out_before + out_after);
}

/// Angle between two level unit directions, 0 to pi.
template <class T>
T level_angle(const Vec<T>& a, const Vec<T>& b) {
  using std::abs;
  using std::atan2;
  return atan2(abs(a.x * b.y - a.y * b.x), dot(a, b));
}

/// Settings of a saw for the plane with normal `plane` across a stick.
template <class T>
struct SawAngles {
  T miter;  ///< of the cut line on the marked face, from square across it
  T bevel;  ///< of the plane, from square to the marked face
};

/// From vectors: the cut line on the marked face is plane x face; the bevel is
/// what is missing to a right angle between plane and face.
template <class T>
SawAngles<T> saw_angles(const Vec<T>& plane, const Stick<T>& stick) {
  using std::atan2;
  using std::sqrt;
  const T lengthwise = dot(plane, stick.axis);
  const T crosswise = dot(plane, stick.width);
  const T through = dot(plane, stick.face);
  return {atan2(-crosswise, lengthwise),
          atan2(-through, sqrt(lengthwise * lengthwise + crosswise * crosswise))};
}

}  // namespace stakewright::roof
