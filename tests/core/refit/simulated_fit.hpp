#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "core/circle/circle.hpp"
#include "core/uncertainty/random.hpp"

/// Hubs and parts by plain sums, for tests to hold core/refit against.
namespace brakewright {

inline constexpr double kRadPerDeg = std::numbers::pi / 180;

inline double curve(const std::vector<Harmonic>& waves, double angle_deg) {
  double value = 0;
  for (const Harmonic& wave : waves) {
    value += wave.amplitude_um * std::cos((wave.order * angle_deg - wave.phase_deg) * kRadPerDeg);
  }
  return value;
}

/// Orders 1 to `orders`, each coefficient normal about 0 with size/k^fall.
inline std::vector<Harmonic> drawn_waves(Random& random, int orders, double size_um, double fall) {
  std::vector<Harmonic> waves;
  for (int k = 1; k <= orders; ++k) {
    const double sd = size_um * std::pow(k, -fall);
    const double a = sd * random.normal(), b = sd * random.normal();
    waves.push_back({k, std::hypot(a, b), std::atan2(b, a) / kRadPerDeg});
  }
  return waves;
}

/// Peak to valley on a grid by plain sums.
inline double spread_on_grid(const std::vector<Harmonic>& hub, const std::vector<Harmonic>& part, double turn_deg,
                             double tilt_um, double thick_deg, int points) {
  double high = -1e300, low = 1e300;
  for (int i = 0; i < points; ++i) {
    const double angle = 360.0 * i / points;
    const double value =
        curve(hub, angle) + curve(part, angle - turn_deg) + tilt_um * std::cos((angle - thick_deg) * kRadPerDeg);
    high = std::max(high, value);
    low = std::min(low, value);
  }
  return high - low;
}

}  // namespace brakewright
