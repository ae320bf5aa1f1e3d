#pragma once

#include <cstdint>

namespace brakewright::bench_sim {

/// As many floats side by side, on which a processor works at once.
template <int kCount>
struct Wide {
  typedef float Floats __attribute__((vector_size(4 * kCount)));
  typedef std::int32_t Ints __attribute__((vector_size(4 * kCount)));
};

/// A power as its logarithm's polynomial needs it.
struct Power {
  float p = 1;
  float of_m[6] = {};  ///< p times the terms of log2(1 + m)
};

/// @param p  0 to 1
inline Power power_of(float p) {
  return {.p = p,
          .of_m = {p * 1.44268143F, p * -0.720358789F, p * 0.468658864F, p * -0.301638007F, p * 0.144471094F,
                   p * -0.0338220447F}};
}

/// y to a power for Kienzle's law, within 2e-5 of it; it only adds and multiplies.
/// @param y  >= 0, and not denormal; of 0 what comes out is as good as 0. Changed into the answer
/// Logarithm and exponential to base 2 by polynomials through Chebyshev's points of [1, 2) and [0, 1), computed here;
/// their terms in pairs, so that none waits for all others.
template <int kCount>
[[gnu::always_inline]] inline void raise(typename Wide<kCount>::Floats& y, const Power& power) {
  using Floats = typename Wide<kCount>::Floats;
  using Ints = typename Wide<kCount>::Ints;
  const Ints bits = (Ints)y;
  const Ints exponent = (bits >> 23) - 127;
  const Ints ones = (bits & 0x007fffff) | 0x3f800000;
  const Floats m = (Floats)ones - 1.0F;
  const Floats m2 = m * m;
  const Floats log2 = (power.of_m[0] + power.of_m[1] * m) + m2 * (power.of_m[2] + power.of_m[3] * m) +
                      (m2 * m2) * (power.of_m[4] + power.of_m[5] * m);
  // 0 or more, since the exponent is -127 or more
  const Floats raised = (power.p * __builtin_convertvector(exponent, Floats) + 127.0F) + m * log2;
  const Ints whole = __builtin_convertvector(raised, Ints);
  const Floats t = raised - __builtin_convertvector(whole, Floats);
  const Floats t2 = t * t;
  const Floats exp2 =
      (1.00000346F + 0.692972898F * t) + t2 * (0.241604358F + 0.0517449975F * t) + (t2 * t2) * 0.0136703094F;
  const Ints scale = whole << 23;
  y = (Floats)scale * exp2;
}

}  // namespace brakewright::bench_sim
