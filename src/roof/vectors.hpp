// Vectors in space on any scalar: double, or a number that carries its own derivatives.
// x right, y forward, z up.
#pragma once

#include <cmath>

namespace stakewright::roof {

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

}  // namespace stakewright::roof
