#pragma once

#include <array>
#include <bit>
#include <cstddef>

namespace brakewright {

/// Draws are worked on this many at a time, side by side.
inline constexpr std::size_t kLanes = 8;

/// One float for each of `kLanes` draws, with arithmetic lane by lane. Written with the vector types that GCC and
/// clang share, because loops over small arrays come out scalar.
struct Lanes {
  using Half = float __attribute__((vector_size(16)));

  Half low{};
  Half high{};

  static Lanes all(float value) {
    const Half half = {value, value, value, value};
    return {half, half};
  }
  static Lanes from(const std::array<float, kLanes>& values) { return std::bit_cast<Lanes>(values); }
  std::array<float, kLanes> array() const { return std::bit_cast<std::array<float, kLanes>>(*this); }

  friend Lanes operator+(const Lanes& a, const Lanes& b) { return {a.low + b.low, a.high + b.high}; }
  friend Lanes operator-(const Lanes& a, const Lanes& b) { return {a.low - b.low, a.high - b.high}; }
  friend Lanes operator*(const Lanes& a, const Lanes& b) { return {a.low * b.low, a.high * b.high}; }
  friend Lanes operator*(float a, const Lanes& b) { return all(a) * b; }
  Lanes& operator+=(const Lanes& other) { return *this = *this + other; }
  Lanes& operator-=(const Lanes& other) { return *this = *this - other; }

  friend Lanes smaller(const Lanes& a, const Lanes& b) {
    return {a.low < b.low ? a.low : b.low, a.high < b.high ? a.high : b.high};
  }
  friend Lanes larger(const Lanes& a, const Lanes& b) {
    return {a.low > b.low ? a.low : b.low, a.high > b.high ? a.high : b.high};
  }
  /// `yes` where a > b, else `no`.
  friend Lanes where_above(const Lanes& a, const Lanes& b, const Lanes& yes, const Lanes& no) {
    return {a.low > b.low ? yes.low : no.low, a.high > b.high ? yes.high : no.high};
  }
};

}  // namespace brakewright
