#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/circle/true_curve.hpp"

namespace brakewright {
namespace {

constexpr std::size_t kQuarter = kGrid / 4;

struct Waves {
  std::array<std::array<float, kDrawnOrders>, kQuarter + 1> cosine;
  std::array<std::array<float, kDrawnOrders>, kQuarter + 1> sine;
};

Waves make_waves() {
  Waves waves{};
  for (std::size_t i = 0; i <= kQuarter; ++i) {
    for (std::size_t k = 0; k < kDrawnOrders; ++k) {
      const double turn = static_cast<double>((i * (k + 1)) % kGrid) / static_cast<double>(kGrid);
      waves.cosine[i][k] = static_cast<float>(std::cos(2 * std::numbers::pi * turn));
      waves.sine[i][k] = static_cast<float>(std::sin(2 * std::numbers::pi * turn));
    }
  }
  return waves;
}

const Waves& waves() {
  static const Waves made = make_waves();
  return made;
}

void add(Lanes& sum, float factor, const Lanes& lanes) {
  for (std::size_t l = 0; l < kLanes; ++l) sum[l] += factor * lanes[l];
}

/// Height of the parabola through three neighbours at its vertex; the middle value where they do not bend.
float vertex(float before, float at, float after) {
  const float bend = before - 2 * at + after;
  if (std::abs(bend) < 1e-12F) return at;
  const float slope = before - after;
  const float offset = std::clamp(0.5F * slope / bend, -0.5F, 0.5F);
  return at - 0.25F * slope * offset;
}

}  // namespace

CurveGrid on_grid(const CurveBlock& block) {
  CurveGrid grid;
  const Waves& wave = waves();
  for (std::size_t i = 0; i <= kQuarter; ++i) {
    Lanes cosine_even = block.level;
    Lanes cosine_odd{};
    Lanes sine_even{};
    Lanes sine_odd{};
    for (std::size_t k = 0; k < kDrawnOrders; k += 2) {
      add(cosine_odd, wave.cosine[i][k], block.cosine[k]);
      add(sine_odd, wave.sine[i][k], block.sine[k]);
      add(cosine_even, wave.cosine[i][k + 1], block.cosine[k + 1]);
      add(sine_even, wave.sine[i][k + 1], block.sine[k + 1]);
    }
    Lanes& at = grid.values[i];
    Lanes& mirrored = grid.values[(kGrid - i) % kGrid];
    Lanes& opposite_mirrored = grid.values[kGrid / 2 - i];
    Lanes& opposite = grid.values[(kGrid / 2 + i) % kGrid];
    for (std::size_t l = 0; l < kLanes; ++l) {
      const float even_up = cosine_even[l] + sine_even[l];
      const float even_down = cosine_even[l] - sine_even[l];
      const float odd_up = cosine_odd[l] + sine_odd[l];
      const float odd_down = cosine_odd[l] - sine_odd[l];
      at[l] = even_up + odd_up;
      mirrored[l] = even_down + odd_down;
      opposite_mirrored[l] = even_down - odd_down;
      opposite[l] = even_up - odd_up;
    }
  }
  return grid;
}

Extremes extremes(const CurveGrid& grid) {
  Lanes highest = grid.values[0];
  Lanes lowest = grid.values[0];
  std::array<std::int32_t, kLanes> at_highest{};
  std::array<std::int32_t, kLanes> at_lowest{};
  for (std::size_t i = 1; i < kGrid; ++i) {
    const auto index = static_cast<std::int32_t>(i);
    for (std::size_t l = 0; l < kLanes; ++l) {
      const float value = grid.values[i][l];
      at_highest[l] = value > highest[l] ? index : at_highest[l];
      highest[l] = value > highest[l] ? value : highest[l];
      at_lowest[l] = value < lowest[l] ? index : at_lowest[l];
      lowest[l] = value < lowest[l] ? value : lowest[l];
    }
  }
  for (std::size_t l = 0; l < kLanes; ++l) {
    const auto high = static_cast<std::size_t>(at_highest[l]);
    const auto low = static_cast<std::size_t>(at_lowest[l]);
    highest[l] = vertex(grid.values[(high + kGrid - 1) % kGrid][l], highest[l], grid.values[(high + 1) % kGrid][l]);
    lowest[l] = vertex(grid.values[(low + kGrid - 1) % kGrid][l], lowest[l], grid.values[(low + 1) % kGrid][l]);
  }
  return {highest, lowest};
}

double quantile(std::vector<float>& values, double share) {
  const auto count = static_cast<double>(values.size());
  const auto rank = static_cast<std::ptrdiff_t>(std::clamp(std::ceil(share * count) - 1, 0.0, count - 1));
  std::nth_element(values.begin(), values.begin() + rank, values.end());
  return static_cast<double>(values[static_cast<std::size_t>(rank)]);
}

}  // namespace brakewright
