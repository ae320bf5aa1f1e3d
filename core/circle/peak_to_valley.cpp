#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

#include "core/circle/circle.hpp"
#include "core/degree.hpp"

namespace brakewright {
namespace {

constexpr double kTolerance = 1e-13;    // of the amplitudes' sum
constexpr double kNarrowestRad = 1e-8;  // half a cell; below it no bound is above the tolerance
constexpr int kCellsPerWave = 8;

struct Local {
  double value;
  double slope;
  double bend;  // second derivative
};

class Curve {
 public:
  explicit Curve(std::span<const Harmonic> harmonics) {
    for (const Harmonic& harmonic : harmonics) highest_order = std::max(highest_order, harmonic.order);
    waves_.resize(static_cast<std::size_t>(highest_order));
    for (const Harmonic& harmonic : harmonics) {
      const double order = harmonic.order;
      waves_[static_cast<std::size_t>(harmonic.order) - 1] +=
          std::polar(harmonic.amplitude_um, harmonic.phase_deg * kRadPerDeg);
      const double size = std::abs(harmonic.amplitude_um);
      most_value += size;
      most_bend += order * order * size;
      most_bend_rate += order * order * order * size;
    }
  }

  /// The curve (sign 1) or the curve upside down (sign -1).
  Local at(double angle, double sign) const {
    Local local{0.0, 0.0, 0.0};
    const double cosine_1 = std::cos(angle);
    const double sine_1 = std::sin(angle);
    double cosine = 1.0;
    double sine = 0.0;
    double order = 0.0;
    for (const auto& wave : waves_) {
      const double before = cosine;
      cosine = before * cosine_1 - sine * sine_1;
      sine = before * sine_1 + sine * cosine_1;
      order += 1.0;
      const double value = wave.real() * cosine + wave.imag() * sine;
      local.value += value;
      local.slope += order * (wave.imag() * cosine - wave.real() * sine);
      local.bend -= order * order * value;
    }
    return {sign * local.value, sign * local.slope, sign * local.bend};
  }

  double most_value = 0.0;
  double most_bend = 0.0;
  double most_bend_rate = 0.0;
  int highest_order = 0;

 private:
  std::vector<std::complex<double>> waves_;  // a + i b of a cos kt + b sin kt, for k = 1, 2, ...
};

struct Cell {
  double centre;
  double half;
  Local local;

  double bound(const Curve& curve) const {
    return local.value + std::abs(local.slope) * half + curve.most_bend * half * half / 2.0;
  }
  bool concave(const Curve& curve) const { return local.bend + curve.most_bend_rate * half < 0.0; }
};

/// Highest value in a cell where the curve is concave: Newton's steps on the slope, kept between the ends by halving.
double top_of_concave(const Curve& curve, const Cell& cell, double sign) {
  double low = cell.centre - cell.half;
  double high = cell.centre + cell.half;
  double angle = cell.centre;
  Local local = cell.local;
  double best = local.value;
  for (int step = 0; step < 60 && high - low > 1e-15; ++step) {
    (local.slope > 0.0 ? low : high) = angle;
    double next = angle - local.slope / local.bend;
    if (!(next > low && next < high)) next = (low + high) / 2.0;
    if (std::abs(next - angle) < 1e-15) break;
    angle = next;
    local = curve.at(angle, sign);
    best = std::max(best, local.value);
    if (std::abs(local.slope) * (high - low) < kTolerance * curve.most_value) break;
  }
  return best;
}

double highest(const Curve& curve, const std::vector<Cell>& grid, double sign) {
  std::vector<Cell> cells(grid);
  double best = -curve.most_value;
  for (Cell& cell : cells) {
    cell.local = {sign * cell.local.value, sign * cell.local.slope, sign * cell.local.bend};
    best = std::max(best, cell.local.value);
  }
  // The highest cell is taken first, so that most others fall at once.
  std::sort(cells.begin(), cells.end(), [](const Cell& a, const Cell& b) { return a.local.value < b.local.value; });
  while (!cells.empty()) {
    const Cell cell = cells.back();
    cells.pop_back();
    if (cell.bound(curve) <= best + kTolerance * curve.most_value) continue;
    if (cell.concave(curve) || cell.half < kNarrowestRad) {
      best = std::max(best, top_of_concave(curve, cell, sign));
      continue;
    }
    for (const double side : {-0.5, 0.5}) {
      const double centre = cell.centre + side * cell.half;
      cells.push_back({centre, cell.half / 2.0, curve.at(centre, sign)});
      best = std::max(best, cells.back().local.value);
    }
  }
  return best;
}

}  // namespace

double peak_to_valley_um(std::span<const Harmonic> harmonics) {
  const Curve curve(harmonics);
  if (curve.most_value <= 0.0) return 0.0;
  if (harmonics.size() == 1) return 2.0 * curve.most_value;
  const int count = kCellsPerWave * curve.highest_order;
  std::vector<Cell> grid;
  grid.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    const double centre = 2.0 * std::numbers::pi * i / count;
    grid.push_back({centre, std::numbers::pi / count, curve.at(centre, 1.0)});
  }
  return highest(curve, grid, 1.0) + highest(curve, grid, -1.0);
}

}  // namespace brakewright
