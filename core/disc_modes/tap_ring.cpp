#include "core/disc_modes/tap_ring.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <cstddef>
#include <numbers>
#include <optional>
#include <unsupported/Eigen/FFT>

#include "core/disc_modes/decay_fit.hpp"
#include "core/input_error.hpp"

namespace brakewright::disc_modes {
namespace {

using Complex = std::complex<double>;

constexpr double kTurn = 2 * std::numbers::pi;
constexpr double kBlock_s = 0.005, kContact_s = 0.003, kLongest_s = 4;
constexpr double kLowest_hz = 100, kAbout_hz = 800, kClear = 30;
constexpr std::size_t kShortlyBefore = 10;  // blocks
constexpr double kShortest_s = 0.004, kWindow_s = 0.03;
constexpr std::size_t kMostTones = 16, kMostTries = 40, kMostPlaces = 400, kMostPoints = 400;

struct Segment {
  std::size_t from = 0, to = 0;
};

/// From just after the loudest strike to the next one.
Segment loudest_ring(std::span<const double> samples, double rate_hz) {
  const auto block = static_cast<std::size_t>(kBlock_s * rate_hz);
  std::vector<double> powers;
  for (std::size_t i = 0; i + block <= samples.size(); i += block) {
    double sum = 0;
    for (const double value : samples.subspan(i, block)) sum += value * value;
    powers.push_back(sum);
  }
  const auto loudest = static_cast<std::size_t>(std::max_element(powers.begin(), powers.end()) - powers.begin());
  const auto loud = samples.subspan(loudest * block, block);
  const auto peak =
      std::max_element(loud.begin(), loud.end(), [](double a, double b) { return std::abs(a) < std::abs(b); });
  const std::size_t from = std::min(samples.size(), loudest * block + static_cast<std::size_t>(peak - loud.begin()) +
                                                        static_cast<std::size_t>(kContact_s * rate_hz));
  std::size_t to = std::min(samples.size(), from + static_cast<std::size_t>(kLongest_s * rate_hz));
  // a strike comes up within a block; two tones that beat come up over many, or have been as loud shortly before
  for (std::size_t i = loudest + kShortlyBefore; i < powers.size() && (i + 1) * block < to; ++i) {
    const auto here = powers.begin() + static_cast<std::ptrdiff_t>(i);
    if (*here > 4 * *std::max_element(here - kShortlyBefore, here) && *here > 0.1 * powers[loudest]) {
      to = (i - 1) * block;
    }
  }
  return {from, std::max(from, to)};
}

/// A place in the spectrum that stands clear of what is about it.
struct Peak {
  double hz = 0, width_hz = 0;
};

class Spectrum {
 public:
  Spectrum(const std::vector<double>& samples, double rate_hz) {
    std::size_t padded = 1;
    while (padded < samples.size()) padded *= 2;
    std::vector<double> falling(padded, 0);
    for (std::size_t i = 0; i < samples.size(); ++i) {
      const double left = std::cos(std::numbers::pi / 2 * static_cast<double>(i) / static_cast<double>(samples.size()));
      falling[i] = samples[i] * left * left;
    }
    Eigen::FFT<double> fft;
    fft.SetFlag(Eigen::FFT<double>::HalfSpectrum);
    std::vector<Complex> waves;
    fft.fwd(waves, falling);
    for (const Complex& wave : waves) powers_.push_back(std::norm(wave));
    step_hz_ = rate_hz / static_cast<double>(padded);
    top_hz_ = 0.45 * rate_hz;
  }

  /// The strongest that is clear and not near one of those passed over.
  std::optional<Peak> strongest(const std::vector<Peak>& passed) const {
    std::vector<std::size_t> places;
    for (std::size_t i = bin(kLowest_hz); i < bin(top_hz_) && i + 1 < powers_.size(); ++i) {
      if (powers_[i] > powers_[i - 1] && powers_[i] >= powers_[i + 1]) places.push_back(i);
    }
    std::sort(places.begin(), places.end(), [&](auto a, auto b) { return powers_[a] > powers_[b]; });
    if (places.size() > kMostPlaces) places.resize(kMostPlaces);
    for (const std::size_t at : places) {
      const double hz = static_cast<double>(at) * step_hz_;
      const bool known = std::any_of(passed.begin(), passed.end(), [&](const Peak& peak) {
        return std::abs(peak.hz - hz) < 3 * step_hz_ + 2 * peak.width_hz;
      });
      if (!known && powers_[at] > kClear * floor_about(at)) return Peak{.hz = hz, .width_hz = width_hz(at)};
    }
    return std::nullopt;
  }

 private:
  std::size_t bin(double hz) const { return static_cast<std::size_t>(std::max(2.0, hz / step_hz_)); }

  double floor_about(std::size_t at) const {
    const std::size_t reach = bin(kAbout_hz), from = at > reach ? at - reach : 1;
    std::vector<double> about(powers_.begin() + static_cast<std::ptrdiff_t>(from),
                              powers_.begin() + static_cast<std::ptrdiff_t>(std::min(powers_.size(), at + reach)));
    // the lower quarter, which a broad tone reaches last; of noise it lies at ln(4/3) of the mean
    const auto quarter = about.begin() + static_cast<std::ptrdiff_t>(about.size() / 4);
    std::nth_element(about.begin(), quarter, about.end());
    return *quarter / std::log(4.0 / 3);
  }

  double width_hz(std::size_t at) const {
    std::size_t from = at, to = at;
    while (from > 1 && powers_[from] > powers_[at] / 2) --from;
    while (to + 1 < powers_.size() && powers_[to] > powers_[at] / 2) ++to;
    return static_cast<double>(to - from) * step_hz_;
  }

  std::vector<double> powers_;
  double step_hz_ = 0, top_hz_ = 0;
};

/// A tone of the recording, a e^(s t) and its conjugate.
struct Tone {
  Complex s_per_s = 0, a = 0;
  double u_s_per_s = 0;
  bool paired = false;

  double falls_per_s() const { return -s_per_s.real(); }
};

/// A peak and the one or two tones in it.
struct Group {
  Peak peak;
  std::vector<Tone> tones;
};

void add(const Group& group, double sign, double rate_hz, std::vector<double>& samples) {
  for (const Tone& tone : group.tones) {
    const Complex turn = std::exp(tone.s_per_s / rate_hz);
    Complex value = sign * 2.0 * tone.a;
    for (double& sample : samples) {
      sample += value.real();
      value *= turn;
    }
  }
}

/// The recording about one frequency, brought down to it. A decaying tone stays one exactly.
class BroughtDown {
 public:
  BroughtDown(const std::vector<double>& samples, double rate_hz, double hz, double fall_s)
      : rate_hz_(rate_hz), hz_(hz) {
    const double window_s = std::clamp(fall_s, kShortest_s, kWindow_s);
    const auto width = static_cast<std::size_t>(window_s * rate_hz);
    hop_ = width / 2;
    const double counted_s = std::max(12 * fall_s, 8 * window_s);
    const std::size_t end = std::min(samples.size(), static_cast<std::size_t>(counted_s * rate_hz) + width);
    while (end / hop_ > kMostPoints) hop_ += width / 2;
    for (std::size_t i = 0; i < width; ++i) {
      const double turn = kTurn * (static_cast<double>(i) + 0.5) / static_cast<double>(width);
      window_.push_back(std::polar(1 - std::cos(turn), -kTurn * hz * static_cast<double>(i) / rate_hz));
    }
    for (std::size_t at = 0; at + width <= end; at += hop_) {
      Complex sum = 0;
      for (std::size_t i = 0; i < width; ++i) sum += window_[i] * samples[at + i];
      signal_.push_back(sum * std::polar(1.0, -kTurn * std::fmod(hz * static_cast<double>(at) / rate_hz, 1.0)));
    }
  }

  const std::vector<Complex>& signal() const { return signal_; }

  Tone tone_of(const Decay& decay) const {
    const double per_s = rate_hz_ / static_cast<double>(hop_);
    Tone tone{.s_per_s = decay.s * per_s + Complex(0, kTurn * hz_), .a = 0, .u_s_per_s = decay.u_s * per_s};
    Complex gain = 0, value = 1;
    const Complex turn = std::exp(tone.s_per_s / rate_hz_);
    for (const Complex& weight : window_) {
      gain += weight * value;
      value *= turn;
    }
    tone.a = decay.a / gain;
    return tone;
  }

 private:
  double rate_hz_, hz_;
  std::size_t hop_ = 1;
  std::vector<Complex> window_, signal_;
};

/// One exponential, or two where two are worth their parameters (Schwarz's criterion, and ten more to be sure).
std::vector<Tone> tones_of(const BroughtDown& down) {
  const auto& signal = down.signal();
  DecayFit best = fit_decays(signal, 1);
  const DecayFit two = fit_decays(signal, 2);
  const double size = 2 * static_cast<double>(signal.size());
  if (!two.parts.empty() && !best.parts.empty() && signal.size() >= 12) {
    const bool falling = two.parts[0].s.real() < 0 && two.parts[1].s.real() < 0;
    const double shares = std::abs(two.parts[1].a) / std::abs(two.parts[0].a);
    const bool apart =
        std::abs(two.parts[0].s.imag() - two.parts[1].s.imag()) > 3 * std::hypot(two.parts[0].u_s, two.parts[1].u_s);
    const double gain = size * std::log(best.squares / std::max(two.squares, 1e-300)) - 4 * std::log(size);
    if (falling && apart && shares > 0.02 && shares < 50 && gain > 10) best = two;
  }
  std::vector<Tone> tones;
  for (const Decay& part : best.parts) {
    tones.push_back(down.tone_of(part));
    tones.back().paired = best.parts.size() == 2;
  }
  return tones;
}

std::vector<Tone> fitted(const std::vector<double>& samples, double rate_hz, const Peak& peak) {
  const double fall_s = 1 / (std::numbers::pi * std::max(peak.width_hz, 0.5));
  auto tones = tones_of(BroughtDown(samples, rate_hz, peak.hz, fall_s));
  if (tones.empty() || !(tones[0].falls_per_s() > 0)) return tones;
  double slowest = tones[0].falls_per_s();
  for (const Tone& tone : tones) slowest = std::min(slowest, tone.falls_per_s());
  if (!(slowest > 0)) return tones;
  return tones_of(BroughtDown(samples, rate_hz, tones[0].s_per_s.imag() / kTurn, 1 / slowest));
}

bool near_peak(const std::vector<Tone>& tones, const Peak& peak) {
  return std::all_of(tones.begin(), tones.end(), [&](const Tone& tone) {
    return std::abs(tone.s_per_s.imag() / kTurn - peak.hz) < 30 + 2 * peak.width_hz &&
           tone.falls_per_s() < kTurn * peak.hz / 4;
  });
}

/// Takes tone after tone out of what is left.
std::vector<Group> gathered(std::vector<double>& left, double rate_hz) {
  std::vector<Group> groups;
  std::vector<Peak> passed;
  for (std::size_t tries = 0; tries < kMostTries && groups.size() < kMostTones; ++tries) {
    const auto peak = Spectrum(left, rate_hz).strongest(passed);
    if (!peak) break;
    passed.push_back(*peak);
    Group group{.peak = *peak, .tones = fitted(left, rate_hz, *peak)};
    if (group.tones.empty() || !near_peak(group.tones, *peak)) continue;
    add(group, -1, rate_hz, left);
    groups.push_back(std::move(group));
  }
  return groups;
}

RingingTone answer_of(const Tone& tone, double loudest) {
  const double size = std::abs(tone.s_per_s);
  return {.hz = size / kTurn,
          .u_hz = tone.u_s_per_s / kTurn,
          .zeta = tone.falls_per_s() / size,
          .u_zeta = tone.u_s_per_s / size,
          .level_db = 20 * std::log10(std::max(std::abs(tone.a) / loudest, 1e-12)),
          .paired = tone.paired};
}

void check(std::span<const double> samples, double rate_hz) {
  if (!(rate_hz >= 2000 && rate_hz <= 4e5)) {
    throw InputError("out_of_range", "rate_hz", "from 2000 to 400000 samples a second");
  }
  if (static_cast<double>(samples.size()) < rate_hz) {
    throw InputError("too_few", "samples", "one second or more is needed");
  }
}

}  // namespace

TapRing ring_of_tap(std::span<const double> samples, double rate_hz) {
  check(samples, rate_hz);
  const Segment segment = loudest_ring(samples, rate_hz);
  TapRing ring{.begins_s = static_cast<double>(segment.from) / rate_hz,
               .length_s = static_cast<double>(segment.to - segment.from) / rate_hz,
               .tones = {}};
  if (ring.length_s < 0.05) return ring;
  std::vector<double> left(samples.begin() + static_cast<std::ptrdiff_t>(segment.from),
                           samples.begin() + static_cast<std::ptrdiff_t>(segment.to));
  auto groups = gathered(left, rate_hz);
  for (Group& group : groups) {
    add(group, 1, rate_hz, left);
    auto again = fitted(left, rate_hz, group.peak);
    if (!again.empty() && near_peak(again, group.peak)) group.tones = std::move(again);
    add(group, -1, rate_hz, left);
  }
  double loudest = 0;
  std::vector<Tone> tones;
  for (const Group& group : groups) {
    for (const Tone& tone : group.tones) {
      // a hum goes on: what falls by less than its own doubt, or by less than a tenth over the recording, is none
      if (!(tone.falls_per_s() > 3 * tone.u_s_per_s && tone.falls_per_s() * ring.length_s > 0.1)) continue;
      loudest = std::max(loudest, std::abs(tone.a));
      tones.push_back(tone);
    }
  }
  for (const Tone& tone : tones) ring.tones.push_back(answer_of(tone, loudest));
  std::sort(ring.tones.begin(), ring.tones.end(), [](const auto& a, const auto& b) { return a.hz < b.hz; });
  return ring;
}

}  // namespace brakewright::disc_modes
