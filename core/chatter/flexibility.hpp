#pragma once

#include <complex>
#include <span>
#include <string>
#include <vector>

/// Regenerative chatter: whether the waves that one turn leaves grow in the next.
namespace brakewright::chatter {

inline constexpr double kMmPerM = 1000;

/// One mode of vibration as the tool feels it, along the depth of cut.
struct Mode {
  double k_n_per_m = 0;  ///< 1 to 1e13
  double zeta = 0;       ///< share of critical damping, 1e-6 to 0.99
  double fn_hz = 0;      ///< undamped, 0.01 to 1e6
  double weight = 1;     ///< how the force and the depth lie to the mode; 1e-6 to 1e6 in size, either sign
};

/// @throws InputError "out_of_range" or "not_finite" naming the field, with `path` put before it
void check(const Mode& mode, const std::string& path);

/// Checks a list of 1 to 12 modes; refusals name `modes[1].zeta` and the like.
void check(std::span<const Mode> modes);

/// Deflection for a unit force at a frequency: G = sum of weight/(k (1 - r^2 + 2 i zeta r)), r = hz/fn.
/// @param modes  valid ones
/// @param hz     >= 0
/// Source: Schmitz and Smith, Machining Dynamics, the receptance of a damped oscillator.
std::complex<double> flexibility_m_per_n(std::span<const Mode> modes, double hz);

/// The change of the above with frequency, metres per newton and hertz.
std::complex<double> flexibility_slope(std::span<const Mode> modes, double hz);

/// A band of frequencies in which the real part of the flexibility is negative and goes one way.
struct ChatterBand {
  double soft_hz = 0;   ///< the end where the real part is least, and chatter begins at the least depth
  double stiff_hz = 0;  ///< the other end; may be the lower frequency
  double least_re_m_per_n = 0;
};

/// All such bands from far below the lowest mode to twenty times the highest, least real part first.
/// @param modes  checked here
/// @throws InputError as `check`; "out_of_range" (field "modes") where weights cancel so that none is left
/// Found on a grid that is fine where each mode turns; a dip narrower than that of its own mode cannot be.
std::vector<ChatterBand> chatter_bands(std::span<const Mode> modes);

}  // namespace brakewright::chatter
