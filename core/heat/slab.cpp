#include "core/heat/slab.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace brakewright::heat {
namespace {

constexpr double kPi2 = std::numbers::pi * std::numbers::pi;
/// Below this Fourier number the surface does not feel depth L yet: what is left out is exp(-1/Fo), 1e-11.
constexpr double kThick = 0.04;
/// Below this one depth L does not feel the surface: erfc(1/(2 sqrt Fo)) is 1e-22.
constexpr double kUntouched = 0.005;
constexpr int kMostTerms = 200;

/// Sums over n of exp(-n^2 pi^2 Fo) sign^n / n^2 and / n^4.
struct Sums {
  double second = 0, fourth = 0;
};

Sums decays(double fourier, double sign) {
  Sums sums;
  double alternating = 1;
  for (int n = 1; n <= kMostTerms; ++n) {
    alternating *= sign;
    const double square = static_cast<double>(n) * n;
    const double decay = std::exp(-square * kPi2 * fourier);
    sums.second += alternating * decay / square;
    sums.fourth += alternating * decay / (square * square);
    if (decay < 1e-18) break;
  }
  return sums;
}

/// Response at the surface (sign 1) or at depth L (sign -1), over q0 L/k, to a flux that falls from 1 to 0 at `end`
/// (both times as Fourier numbers). Step: Fo + s0 - (2/pi^2) sum; its integral from 0: Fo^2/2 + s0 Fo - (2/pi^4)(s1 -
/// sum).
double falling(double fourier, double end, double sign) {
  const double constant = sign > 0 ? 1.0 / 3 : -1.0 / 6;
  const double fourth = sign > 0 ? kPi2 * kPi2 / 90 : -7 * kPi2 * kPi2 / 720;
  const Sums sums = decays(fourier, sign);
  const double step = fourier + constant - 2 / kPi2 * sums.second;
  const double integral = fourier * fourier / 2 + constant * fourier - 2 / (kPi2 * kPi2) * (fourth - sums.fourth);
  return step - integral / end;
}

}  // namespace

double thick_rise_k(const Material& material, const Stop& stop, double t_s) {
  const double effusivity2 = material.k_w_mk * material.rho_kg_m3 * material.c_j_kgk;
  return 2 * stop.q0_w_m2 * std::sqrt(t_s / (std::numbers::pi * effusivity2)) * (1 - 2 * t_s / (3 * stop.t_stop_s));
}

double thick_rise_max_k(const Material& material, const Stop& stop) {
  return thick_rise_k(material, stop, stop.t_stop_s / 2);
}

Rises slab_rises(const Material& material, double depth_mm, const Stop& stop, double t_s) {
  const double depth = depth_mm / 1000, unit = stop.q0_w_m2 * depth / material.k_w_mk;
  const double per_second = material.diffusivity_m2_s() / (depth * depth);
  const double fourier = t_s * per_second, end = stop.t_stop_s * per_second;
  const double given = stop.q0_w_m2 * t_s * (1 - t_s / (2 * stop.t_stop_s));
  return {.surface_k = fourier < kThick ? thick_rise_k(material, stop, t_s) : unit * falling(fourier, end, 1),
          .midplane_k = fourier < kUntouched ? 0 : std::max(0.0, unit * falling(fourier, end, -1)),
          .bulk_k = given / (material.rho_kg_m3 * material.c_j_kgk * depth)};
}

Peak slab_peak(const Material& material, double depth_mm, const Stop& stop) {
  const auto rise = [&](double t_s) { return slab_rises(material, depth_mm, stop, t_s).surface_k; };
  constexpr int kGrid = 64;
  int best = 1;
  for (int i = 2; i <= kGrid; ++i) {
    if (rise(stop.t_stop_s * i / kGrid) > rise(stop.t_stop_s * best / kGrid)) best = i;
  }
  double low = stop.t_stop_s * (best - 1) / kGrid, high = stop.t_stop_s * std::min(best + 1, kGrid) / kGrid;
  const double golden = (std::sqrt(5.0) - 1) / 2;
  for (int i = 0; i < 60; ++i) {
    const double a = high - golden * (high - low), b = low + golden * (high - low);
    (rise(a) < rise(b) ? low : high) = rise(a) < rise(b) ? a : b;
  }
  const double at = (low + high) / 2;
  return {.rise_k = rise(at), .t_s = at};
}

}  // namespace brakewright::heat
