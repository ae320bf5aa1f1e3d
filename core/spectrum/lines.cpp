#include "core/spectrum/lines.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <unsupported/Eigen/FFT>

#include "core/input_error.hpp"

namespace brakewright {
namespace {

constexpr double kWorkRate_hz = 960;
constexpr double kLoudFrom_hz = 100;  ///< sound below this does not count for the envelope
constexpr std::size_t kPadding = 4;
constexpr double kClear = 1e-3;
constexpr std::size_t kMostLines = 5;

/// Mean over `width` samples about each, shorter at the ends.
std::vector<double> smoothed(std::span<const double> values, std::size_t width) {
  const std::size_t count = values.size(), half = width / 2;
  std::vector<double> sums(count + 1, 0), means(count);
  for (std::size_t i = 0; i < count; ++i) sums[i + 1] = sums[i] + values[i];
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t from = i > half ? i - half : 0, to = std::min(count, i + (width - half));
    means[i] = (sums[to] - sums[from]) / static_cast<double>(to - from);
  }
  return means;
}

struct Slow {
  std::vector<double> values;
  double rate_hz = 0;
};

/// Every n-th sample of the doubly smoothed signal.
Slow slowed(std::span<const double> values, double rate_hz) {
  const auto step = static_cast<std::size_t>(std::max(1.0, std::floor(rate_hz / kWorkRate_hz)));
  Slow slow{.values = {}, .rate_hz = rate_hz / static_cast<double>(step)};
  if (step == 1) {
    slow.values.assign(values.begin(), values.end());
    return slow;
  }
  const auto twice = smoothed(smoothed(values, step), step);
  for (std::size_t i = step / 2; i < twice.size(); i += step) slow.values.push_back(twice[i]);
  return slow;
}

std::vector<double> envelope(std::span<const double> values, double rate_hz) {
  const auto mean = smoothed(values, static_cast<std::size_t>(rate_hz / kLoudFrom_hz));
  std::vector<double> loud(values.size());
  for (std::size_t i = 0; i < values.size(); ++i) loud[i] = std::abs(values[i] - mean[i]);
  return loud;
}

/// Powers at multiples of `step_hz`.
struct Spectrum {
  std::vector<double> powers;
  double step_hz = 0;
  double length_s = 0;
};

void take_line_out(std::vector<double>& values) {
  const auto count = static_cast<double>(values.size());
  double mean = 0, slope = 0, squares = 0;
  for (const double value : values) mean += value / count;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double x = static_cast<double>(i) - (count - 1) / 2;
    slope += x * (values[i] - mean);
    squares += x * x;
  }
  slope = squares > 0 ? slope / squares : 0;
  double largest = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    values[i] -= mean + slope * (static_cast<double>(i) - (count - 1) / 2);
    largest = std::max(largest, std::abs(values[i]));
  }
  constexpr double kRounding = 1e-12;  // of samples within +-1
  if (largest < kRounding) std::fill(values.begin(), values.end(), 0.0);
}

Spectrum spectrum_of(Slow slow) {
  take_line_out(slow.values);
  const std::size_t count = slow.values.size();
  std::size_t padded = 1;
  while (padded < kPadding * count) padded *= 2;
  for (std::size_t i = 0; i < count; ++i) {
    const double turn = (static_cast<double>(i) + 0.5) / static_cast<double>(count);
    slow.values[i] *= 0.5 - 0.5 * std::cos(2 * std::numbers::pi * turn);
  }
  slow.values.resize(padded, 0);
  Eigen::FFT<double> fft;
  fft.SetFlag(Eigen::FFT<double>::HalfSpectrum);
  std::vector<std::complex<double>> waves;
  fft.fwd(waves, slow.values);
  Spectrum spectrum{.powers = {},
                    .step_hz = slow.rate_hz / static_cast<double>(padded),
                    .length_s = static_cast<double>(count) / slow.rate_hz};
  for (const auto& wave : waves) spectrum.powers.push_back(std::norm(wave));
  return spectrum;
}

/// Mean power of the noise about a bin: from the median, which a line moves little.
double floor_about(const Spectrum& spectrum, std::size_t at, std::size_t reach) {
  const std::size_t from = at > reach ? at - reach : 1, to = std::min(spectrum.powers.size(), at + reach + 1);
  std::vector<double> about(spectrum.powers.begin() + static_cast<std::ptrdiff_t>(from),
                            spectrum.powers.begin() + static_cast<std::ptrdiff_t>(to));
  const auto middle = about.begin() + static_cast<std::ptrdiff_t>(about.size() / 2);
  std::nth_element(about.begin(), middle, about.end());
  return *middle / std::numbers::ln2;
}

/// Full width at half of the peak's power.
double width_hz(const Spectrum& spectrum, std::size_t at) {
  const double half = spectrum.powers[at] / 2;
  std::size_t from = at, to = at;
  while (from > 1 && spectrum.powers[from - 1] > half) --from;
  while (to + 1 < spectrum.powers.size() && spectrum.powers[to + 1] > half) ++to;
  const auto part = [&](std::size_t inside, std::size_t outside) {
    const double in = spectrum.powers[inside], out = spectrum.powers[outside];
    return in > out ? std::clamp((in - half) / (in - out), 0.0, 1.0) : 0.0;
  };
  const double ends = (from > 0 ? part(from, from - 1) : 0) + (to + 1 < spectrum.powers.size() ? part(to, to + 1) : 0);
  return (static_cast<double>(to - from) + ends) * spectrum.step_hz;
}

SpectralLine line_at(const Spectrum& spectrum, std::size_t at, double ratio, double chance, LineKind kind) {
  const double least = 1e-300;
  const double before = std::log(spectrum.powers[at - 1] + least), here = std::log(spectrum.powers[at] + least);
  const double after = std::log(spectrum.powers[at + 1] + least);
  const double bend = before - 2 * here + after;
  const double offset = bend < 0 ? std::clamp((before - after) / (2 * bend), -0.5, 0.5) : 0;
  constexpr double kHannWidth = 1.44;  // full width at half power, over 1/length
  const double nominal = kHannWidth / spectrum.length_s;
  const double broad = std::max(0.0, width_hz(spectrum, at) * width_hz(spectrum, at) - 1.1 * nominal * nominal);
  const double bound = 1.3 * std::sqrt(6 / ratio) / (2 * std::numbers::pi * spectrum.length_s);
  return {.hz = (static_cast<double>(at) + offset) * spectrum.step_hz,
          .u_hz = std::hypot(bound, std::sqrt(broad) / 2.355, 0.01 / spectrum.length_s),
          .snr_db = 10 * std::log10(ratio),
          .p_chance = chance,
          .kind = kind};
}

void add_lines(const Spectrum& spectrum, const ListeningBand& band, LineKind kind, std::vector<SpectralLine>& lines) {
  const auto bin = [&](double hz) { return static_cast<std::size_t>(std::max(2.0, hz / spectrum.step_hz)); };
  const std::size_t first = bin(band.low_hz), last = std::min(bin(band.high_hz), spectrum.powers.size() - 2);
  const double reach_hz = std::max(4.0, 24 / spectrum.length_s);
  const auto reach = bin(reach_hz);
  const double apart_hz = 3 / spectrum.length_s;
  // A Hann window leaves 1.5 steps of 1/length to each independent power; a peak between them and the two kinds of
  // line make for more chances.
  constexpr double kChances = 6;
  const double bins = std::max(1.0, kChances * (band.high_hz - band.low_hz) * spectrum.length_s);
  const double behind_floor = std::max(4.0, 0.6 * reach_hz * spectrum.length_s);
  for (std::size_t at = first; at <= last; ++at) {
    const double power = spectrum.powers[at];
    if (!(power > 0) || power < spectrum.powers[at - 1] || power <= spectrum.powers[at + 1]) continue;
    const double ratio = std::min(power / std::max(floor_about(spectrum, at, reach), 1e-12 * power), 1e12);
    const double beyond = std::exp(-behind_floor * std::log1p(ratio / behind_floor));
    const double chance = -std::expm1(bins * std::log1p(-std::min(beyond, 1 - 1e-16)));
    if (chance > kClear) continue;
    lines.push_back(line_at(spectrum, at, ratio, chance, kind));
  }
  std::sort(lines.begin(), lines.end(), [](const auto& a, const auto& b) { return a.snr_db > b.snr_db; });
  std::vector<SpectralLine> apart;
  for (const SpectralLine& line : lines) {
    const bool near = std::any_of(apart.begin(), apart.end(), [&](const SpectralLine& stronger) {
      return std::abs(stronger.hz - line.hz) < apart_hz + 3 * (stronger.u_hz + line.u_hz);
    });
    if (!near) apart.push_back(line);
  }
  lines = std::move(apart);
}

}  // namespace

std::vector<SpectralLine> clear_lines(std::span<const double> samples, double rate_hz, const ListeningBand& band) {
  if (!(rate_hz >= 100 && rate_hz <= 1e6)) throw InputError("out_of_range", "rate_hz", "from 100 to 1000000");
  if (static_cast<double>(samples.size()) < rate_hz) {
    throw InputError("too_few", "samples", "one second or more is needed");
  }
  ListeningBand within = band;
  within.high_hz = std::min(band.high_hz, 0.45 * rate_hz);
  if (!(within.low_hz > 0 && within.low_hz < within.high_hz)) {
    throw InputError("out_of_range", "band", "a band from above 0 to under half of the sampling rate");
  }
  std::vector<SpectralLine> lines;
  add_lines(spectrum_of(slowed(samples, rate_hz)), within, LineKind::tone, lines);
  if (rate_hz >= kWorkRate_hz) {
    add_lines(spectrum_of(slowed(envelope(samples, rate_hz), rate_hz)), within, LineKind::modulation, lines);
  }
  if (lines.size() > kMostLines) lines.resize(kMostLines);
  return lines;
}

}  // namespace brakewright
