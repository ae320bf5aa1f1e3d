#include "core/chatter/flexibility.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/chatter/check.hpp"
#include "core/input_error.hpp"
#include "core/want.hpp"

namespace brakewright::chatter {
namespace {

constexpr std::size_t kMostModes = 12;
constexpr double kFarBelow = 1e-3, kFarAbove = 20;
constexpr int kCoarse = 400, kAboutEach = 200, kHalvings = 60;

/// Frequencies between which real part and phase change little.
std::vector<double> grid_hz(std::span<const Mode> modes) {
  double lowest = modes[0].fn_hz, highest = modes[0].fn_hz;
  for (const Mode& mode : modes) {
    lowest = std::min(lowest, mode.fn_hz);
    highest = std::max(highest, mode.fn_hz);
  }
  const double from = kFarBelow * lowest, to = kFarAbove * highest;
  std::vector<double> grid;
  for (int i = 0; i <= kCoarse; ++i) grid.push_back(from * std::pow(to / from, static_cast<double>(i) / kCoarse));
  for (const Mode& mode : modes) {
    for (int i = 1; i < kAboutEach; ++i) {
      const double turn = (static_cast<double>(i) / kAboutEach - 0.5) * std::numbers::pi;
      const double hz = mode.fn_hz * (1 + mode.zeta * std::tan(turn));
      if (hz > from && hz < to) grid.push_back(hz);
    }
  }
  std::sort(grid.begin(), grid.end());
  grid.erase(std::unique(grid.begin(), grid.end()), grid.end());
  return grid;
}

/// Where a function changes its sign between two frequencies, one of them on either side.
template <class Function>
double crossing_hz(const Function& function, double from_hz, double to_hz) {
  const bool above = function(from_hz) > 0;
  for (int i = 0; i < kHalvings; ++i) {
    const double middle = (from_hz + to_hz) / 2;
    ((function(middle) > 0) == above ? from_hz : to_hz) = middle;
  }
  return (from_hz + to_hz) / 2;
}

/// Adds the places where the function changes its sign to the frequencies in order.
template <class Function>
std::vector<double> with_crossings(const std::vector<double>& grid, const Function& function) {
  std::vector<double> places{grid.front()};
  for (std::size_t i = 1; i < grid.size(); ++i) {
    const double from = grid[i - 1], to = grid[i];
    if ((function(from) > 0) != (function(to) > 0)) places.push_back(crossing_hz(function, from, to));
    places.push_back(to);
  }
  return places;
}

}  // namespace

void check(const Mode& mode, const std::string& path) {
  want(mode.k_n_per_m, 1, 1e13, path + "k_n_per_m", "must be from 1 to 1e13 N/m");
  want(mode.zeta, 1e-6, 0.99, path + "zeta", "must be from 0.000001 to 0.99");
  want(mode.fn_hz, 0.01, 1e6, path + "fn_hz", "must be from 0.01 to 1000000 Hz");
  want(std::abs(mode.weight), 1e-6, 1e6, path + "weight", "must be from 0.000001 to 1000000 in size");
}

void check(std::span<const Mode> modes) {
  if (modes.empty() || modes.size() > kMostModes) throw InputError("out_of_range", "modes", "from one to 12 modes");
  for (std::size_t i = 0; i < modes.size(); ++i) check(modes[i], "modes[" + std::to_string(i) + "].");
}

std::complex<double> flexibility_m_per_n(std::span<const Mode> modes, double hz) {
  std::complex<double> sum = 0;
  for (const Mode& mode : modes) {
    const double r = hz / mode.fn_hz;
    sum += mode.weight / (mode.k_n_per_m * std::complex<double>((1 - r) * (1 + r), 2 * mode.zeta * r));
  }
  return sum;
}

std::complex<double> flexibility_slope(std::span<const Mode> modes, double hz) {
  std::complex<double> sum = 0;
  for (const Mode& mode : modes) {
    const double r = hz / mode.fn_hz;
    const std::complex<double> resistance((1 - r) * (1 + r), 2 * mode.zeta * r);
    const std::complex<double> change(-2 * r, 2 * mode.zeta);
    sum -= mode.weight * change / (mode.k_n_per_m * mode.fn_hz * resistance * resistance);
  }
  return sum;
}

std::vector<ChatterBand> chatter_bands(std::span<const Mode> modes) {
  check(modes);
  const auto real = [&](double hz) { return flexibility_m_per_n(modes, hz).real(); };
  const auto slope = [&](double hz) { return flexibility_slope(modes, hz).real(); };
  const auto places = with_crossings(with_crossings(grid_hz(modes), slope), real);
  std::vector<ChatterBand> bands;
  for (std::size_t i = 1; i < places.size(); ++i) {
    const double from = places[i - 1], to = places[i];
    if (!(real((from + to) / 2) < 0)) continue;
    const double at_from = real(from), at_to = real(to);
    bands.push_back(at_from < at_to ? ChatterBand{from, to, at_from} : ChatterBand{to, from, at_to});
  }
  std::erase_if(bands, [](const ChatterBand& band) { return !(band.least_re_m_per_n < 0); });
  if (bands.empty()) {
    throw InputError("out_of_range", "modes", "weights that do not cancel: nothing is left that could chatter");
  }
  std::sort(bands.begin(), bands.end(),
            [](const auto& a, const auto& b) { return a.least_re_m_per_n < b.least_re_m_per_n; });
  return bands;
}

}  // namespace brakewright::chatter
