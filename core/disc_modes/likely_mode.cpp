#include "core/disc_modes/likely_mode.hpp"

#include <cmath>
#include <numbers>

#include "core/want.hpp"

namespace brakewright::disc_modes {
std::optional<LikelyMode> likely_mode(std::span<const PlateMode> modes, double hz, double u_hz) {
  if (modes.empty()) return std::nullopt;
  double sum = 1 / std::numbers::ln2;  // none of them: one in the octave, evenly spread
  double largest = -1;
  LikelyMode best;
  for (const PlateMode& mode : modes) {
    const double spread = std::hypot(kPlateSpread, mode.u_hz / mode.hz, u_hz / hz);
    const double off = std::log(hz / mode.hz) / spread;
    const double weight = std::exp(-off * off / 2) / (spread * std::sqrt(2 * std::numbers::pi));
    sum += weight;
    if (weight > largest) {
      largest = weight;
      best.mode = mode;
    }
  }
  best.probability = largest / sum;
  return best;
}

ChatterMarks frequency_of_marks(double spacing_mm, double u_spacing_mm, double radius_mm, double rpm) {
  want(spacing_mm, 1e-3, 1000, "marks.spacing_mm", "must be from 0.001 to 1000 mm");
  want(u_spacing_mm, 0, spacing_mm, "marks.u_spacing_mm", "must be from 0 to the spacing itself");
  want(radius_mm, 1, 1e4, "marks.radius_mm", "must be from 1 to 10000 mm");
  want(rpm, 0.01, 1e6, "marks.rpm", "must be from 0.01 to 1000000 turns a minute");
  const double round_mm = 2 * std::numbers::pi * radius_mm;
  want(spacing_mm, 1e-3, round_mm, "marks.spacing_mm", "must be at most once round at marks.radius_mm");
  const double per_turn = round_mm / spacing_mm;
  const double hz = per_turn * rpm / 60;
  return {.hz = hz,
          .u_hz = hz * u_spacing_mm / spacing_mm,
          .per_turn = per_turn,
          .surface_speed_m_per_min = round_mm * rpm / 1000};
}

}  // namespace brakewright::disc_modes
