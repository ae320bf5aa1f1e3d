#pragma once

#include <span>
#include <vector>

namespace brakewright {

/// How a steady vibration shows in a recording: as a tone of its own, or as the loudness of other sound going up and
/// down with it.
enum class LineKind { tone, modulation };

/// A clear line of a spectrum.
struct SpectralLine {
  double hz = 0;
  double u_hz = 0;      ///< standard uncertainty
  double snr_db = 0;    ///< its power over that of the noise about it, in one bin of the whole recording
  double p_chance = 0;  ///< probability that noise alone shows a line as strong somewhere in the band
  LineKind kind = LineKind::tone;
};

struct ListeningBand {
  double low_hz = 2, high_hz = 60;
};

/// The clear lines of a band, strongest first, at most five; none when nothing stands out.
///
/// One Hann-windowed periodogram of the whole recording, for the sound itself and for its envelope; each power against
/// the median of its neighbourhood. A line is clear when noise alone would show one in a thousand recordings at most.
/// Frequency by a parabola through the peak's logarithms; uncertainty by the bound for a sine in white noise, widened
/// by what the peak is broader than the window's, as when the speed was not held.
/// @param samples  finite, within +-1; at least one second
/// @param rate_hz  100 or more; the band's end must be under 0.45 of it
/// @throws InputError "too_few", "out_of_range"
/// Source: Rife and Boorstyn 1974 for the bound; exponential law of a periodogram for
/// chance, over a floor that is itself estimated, which makes it (1 + r/m)^-m (from memory).
std::vector<SpectralLine> clear_lines(std::span<const double> samples, double rate_hz, const ListeningBand& band = {});

}  // namespace brakewright
