#pragma once

#include <cstddef>

#include "core/chatter/delayed_oscillator.hpp"

namespace brakewright::chatter {

/// One mode that cuts, in the direction of the chip's thickness.
struct CuttingMode {
  double mass_kg = 0;  ///< 1e-6 to 1e6
  double zeta = 0;     ///< 0 to 0.99
  double fn_hz = 0;    ///< 0.01 to 1e6
};

/// Turning: the tool is always in the cut.
struct Turning {
  CuttingMode mode;
  double rpm = 0;             ///< 0.01 to 1e6
  double depth_mm = 0;        ///< 0 to 1e4
  double kf_n_per_m2 = 0;     ///< 1 to 1e15
  std::size_t intervals = 0;  ///< of one turn, 2 to 20 000
};

enum class Direction { up, down };

/// Cutting with teeth that are in the cut for a part of each turn; straight teeth, the mode along the feed.
struct InterruptedCutting {
  CuttingMode mode;
  double rpm = 0, depth_mm = 0;  ///< as above
  int teeth = 0;                 ///< 1 to 64
  double kt_n_per_m2 = 0;        ///< tangential, 1 to 1e15
  double kn_n_per_m2 = 0;        ///< normal, 0 to 1e15
  double radial_ratio = 0;       ///< width of the cut over the cutter's diameter, above 0 to 1
  Direction direction = Direction::down;
  std::size_t intervals = 0;  ///< of one tooth's period, 2 to 4 000
};

/// Waves of the mode's own frequency in a turn, and in the period of one tooth.
double waves_per_period(const Turning& turning);
double waves_per_period(const InterruptedCutting& cutting);

/// The largest multiplier over one turn, or one tooth's period: below 1 vibration dies out, above it grows.
///
/// x'' + 2 zeta wn x' + wn^2 x = -(w K(t)/m)(x(t) - x(t - T)); K is averaged exactly over each interval. About 20
/// intervals for each wave are needed before the answer says something of the cut.
/// @throws InputError "out_of_range" or "not_finite" naming `mass_kg`, `zeta`, `fn_hz`, `rpm`, `depth_mm`,
///         `kf_n_per_m2`, `teeth`, `kt_n_per_m2`, `kn_n_per_m2`, `radial_ratio` or `intervals`; "not_converged" as
///         `spectral_radius`
/// Source: Insperger and Stepan (2002, 2004); methods 10.
double spectral_radius(const Turning& turning);
double spectral_radius(const InterruptedCutting& cutting);

}  // namespace brakewright::chatter
