#include "core/refit/fitted_curves.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/circle/angle_groups.hpp"
#include "core/degree.hpp"

namespace brakewright::refit {
namespace {

constexpr std::size_t kGridPoints = 720;
using Grid = std::array<double, kGridPoints>;

double grid_deg(std::size_t i) { return 360.0 * static_cast<double>(i) / kGridPoints; }

/// cos of n half degrees.
const Grid& cosines() {
  static const Grid made = [] {
    Grid grid{};
    for (std::size_t i = 0; i < kGridPoints; ++i) grid[i] = std::cos(grid_deg(i) * kRadPerDeg);
    return grid;
  }();
  return made;
}

Grid on_half_degrees(const std::vector<Wave>& waves) {
  Grid values{};
  const Grid& cosine = cosines();
  for (const Wave& wave : waves) {
    const auto step = static_cast<std::size_t>(wave.order);
    for (std::size_t i = 0, at = 0; i < kGridPoints; ++i, at = (at + step) % kGridPoints) {
      values[i] += wave.cosine * cosine[at] + wave.sine * cosine[(at + kGridPoints - kGridPoints / 4) % kGridPoints];
    }
  }
  return values;
}

double spread(const Grid& values) {
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  return *high - *low;
}

/// How much more than on half degrees the peak to valley can be, from the curve's bend.
double slack_of(const std::vector<Wave>& waves) {
  double slack = 0;
  for (const Wave& wave : waves) {
    slack += 2 * std::hypot(wave.cosine, wave.sine) * (1 - std::cos(std::min(wave.order * 0.25, 180.0) * kRadPerDeg));
  }
  return slack;
}

double size_of(const std::vector<Wave>& waves) {
  double size = 0;
  for (const Wave& wave : waves) size += std::hypot(wave.cosine, wave.sine);
  return size;
}

}  // namespace

std::vector<Wave> summed(std::span<const Harmonic> hub, std::span<const Harmonic> part, double turn_deg) {
  std::vector<Wave> waves{{.order = 1}};
  const auto add = [&](const Harmonic& harmonic, double turn) {
    auto at = std::find_if(waves.begin(), waves.end(), [&](const Wave& w) { return w.order == harmonic.order; });
    if (at == waves.end()) at = waves.insert(waves.end(), {.order = harmonic.order});
    const double phase = (harmonic.phase_deg + harmonic.order * turn) * kRadPerDeg;
    at->cosine += harmonic.amplitude_um * std::cos(phase);
    at->sine += harmonic.amplitude_um * std::sin(phase);
  };
  for (const Harmonic& harmonic : hub) add(harmonic, 0);
  for (const Harmonic& harmonic : part) add(harmonic, turn_deg);
  std::sort(waves.begin(), waves.end(), [](const Wave& a, const Wave& b) { return a.order < b.order; });
  return waves;
}

double runout_of(const std::vector<Wave>& waves) {
  std::vector<Harmonic> harmonics;
  for (const Wave& wave : waves) {
    harmonics.push_back({.order = wave.order,
                         .amplitude_um = std::hypot(wave.cosine, wave.sine),
                         .phase_deg = std::atan2(wave.sine, wave.cosine) / kRadPerDeg});
  }
  return peak_to_valley_um(harmonics);
}

double high_of(const std::vector<Wave>& waves) {
  const Grid values = on_half_degrees(waves);
  return grid_deg(static_cast<std::size_t>(std::max_element(values.begin(), values.end()) - values.begin()));
}

double tilt_um(const RefitInput& input, std::optional<std::size_t> plate) {
  if (!plate) return 0;
  const TaperPlate& chosen = input.plates[*plate];
  return chosen.taper_um * input.radius_mm.value_or(0) / chosen.diameter_mm;
}

std::vector<Wave> waves_of(const RefitInput& input, const Fitting& fitting) {
  const double step = 360.0 / input.positions;
  auto waves = summed(input.hub, input.part, step * fitting.position);
  const double thick = step * fitting.plate_position * kRadPerDeg;
  waves[0].cosine += tilt_um(input, fitting.plate) * std::cos(thick);
  waves[0].sine += tilt_um(input, fitting.plate) * std::sin(thick);
  return waves;
}

Fitting best_with_plate(const RefitInput& input, std::size_t plate) {
  struct Tried {
    Fitting fitting;
    double spread = 0;
  };
  const double tilt = tilt_um(input, plate), step = 360.0 / input.positions;
  std::vector<Tried> tried;
  double least = 1e300, slack = 0, size = 0;
  for (int position = 0; position < input.positions; ++position) {
    if (input.keep_position && position != *input.keep_position) continue;
    const auto waves = waves_of(input, {.position = position});
    const Grid without = on_half_degrees(waves);
    slack = std::max(slack, slack_of(waves) + slack_of({{.order = 1, .cosine = tilt}}));
    size = std::max(size, size_of(waves) + tilt);
    for (int n = 0; n < input.positions; ++n) {
      Grid values = without;
      const double thick = step * n * kRadPerDeg;
      const double cosine = tilt * std::cos(thick), sine = tilt * std::sin(thick);
      for (std::size_t i = 0; i < kGridPoints; ++i) {
        values[i] += cosine * cosines()[i] + sine * cosines()[(i + kGridPoints - kGridPoints / 4) % kGridPoints];
      }
      tried.push_back(
          {.fitting = {.position = position, .plate = plate, .plate_position = n}, .spread = spread(values)});
      least = std::min(least, tried.back().spread);
    }
  }
  std::optional<Fitting> best;
  double best_um = 0;
  for (const Tried& one : tried) {
    if (one.spread > least + slack) continue;
    const double runout = runout_of(waves_of(input, one.fitting));
    if (best && !(runout < best_um - 1e-9 * size)) continue;
    best = one.fitting;
    best_um = runout;
  }
  return *best;
}

}  // namespace brakewright::refit
