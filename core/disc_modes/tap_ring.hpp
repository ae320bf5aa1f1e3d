#pragma once

#include <span>
#include <vector>

namespace brakewright::disc_modes {

/// One decaying tone of a struck disc.
struct RingingTone {
  double hz = 0;  ///< undamped
  double u_hz = 0;
  double zeta = 0;  ///< share of critical damping
  double u_zeta = 0;
  double level_db = 0;  ///< when it begins, against the loudest
  bool paired = false;  ///< one of two that beat with each other, as a mode with diameters has them
};

struct TapRing {
  double begins_s = 0;             ///< just after the strike that was taken, the loudest
  double length_s = 0;             ///< to the next strike or the end
  std::vector<RingingTone> tones;  ///< lowest first; none where nothing rings
};

/// The tones of a tap: frequency and damping of each with standard uncertainties, at most sixteen.
///
/// The loudest tone that stands clear of its neighbourhood is brought down to a slow complex signal and fitted with one
/// decaying exponential, or two where two explain it better; then it is taken out and the next is looked for. In a
/// second round each is fitted anew with all others taken out. A steady hum decays by nothing and is left out.
/// Uncertainties are those of least squares in the noise that is left; the recorder's clock is not in them.
/// @param samples  finite, within +-1, one second or more
/// @param rate_hz  2000 to 400 000
/// @throws InputError "too_few" or "out_of_range" naming `samples` or `rate_hz`
/// Source: Prony's method for the first guess, Gauss-Newton after it; JCGM 100, annex H.3, for the uncertainties.
TapRing ring_of_tap(std::span<const double> samples, double rate_hz);

}  // namespace brakewright::disc_modes
