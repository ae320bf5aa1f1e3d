#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/circle/true_curve.hpp"

namespace brakewright {
namespace {

constexpr std::size_t kQuarter = kGrid / 4;
constexpr std::size_t kCoarseOrders = 4;

struct Wave {
  float cosine;
  float sine;
};
using Waves = std::array<std::array<Wave, kDrawnOrders>, kQuarter + 1>;

Waves make_waves() {
  Waves waves{};
  for (std::size_t i = 0; i <= kQuarter; ++i) {
    for (std::size_t k = 0; k < kDrawnOrders; ++k) {
      const double turn = static_cast<double>((i * (k + 1)) % kGrid) / static_cast<double>(kGrid);
      waves[i][k] = {.cosine = static_cast<float>(std::cos(2 * std::numbers::pi * turn)),
                     .sine = static_cast<float>(std::sin(2 * std::numbers::pi * turn))};
    }
  }
  return waves;
}

const Waves& waves() {
  static const Waves made = make_waves();
  return made;
}

/// Sums of the even or of the odd orders at one angle.
struct Sums {
  Lanes cosine{};
  Lanes sine{};
};

Sums summed(const CurveBlock& block, const std::array<Wave, kDrawnOrders>& wave, std::size_t first) {
  Sums sums;
  for (std::size_t k = first; k < block.orders; k += 2) {
    sums.cosine += wave[k].cosine * block.cosine[k];
    sums.sine += wave[k].sine * block.sine[k];
  }
  return sums;
}

/// Height of the parabola through three neighbours at its vertex; the middle value where they do not bend.
float vertex(float before, float at, float after) {
  const float bend = before - 2 * at + after;
  if (std::abs(bend) < 1e-12F) return at;
  const float slope = before - after;
  const float offset = std::clamp(0.5F * slope / bend, -0.5F, 0.5F);
  return at - 0.25F * slope * offset;
}

/// Each lane's value at its own index, refined by the parabola through its neighbours.
Lanes refined(const CurveGrid& grid, const Lanes& indices) {
  const auto index = indices.array();
  std::array<float, kLanes> heights{};
  const auto* values = reinterpret_cast<const float*>(grid.values.data());
  for (std::size_t l = 0; l < kLanes; ++l) {
    const auto at = static_cast<std::size_t>(index[l]);
    const std::size_t before = at == 0 ? grid.count - 1 : at - 1;
    const std::size_t after = at + 1 == grid.count ? 0 : at + 1;
    heights[l] = vertex(values[before * kLanes + l], values[at * kLanes + l], values[after * kLanes + l]);
  }
  return Lanes::from(heights);
}

}  // namespace

CurveGrid on_grid(const CurveBlock& block, std::size_t finest_orders) {
  CurveGrid grid;
  const std::size_t stride = std::max(block.orders, finest_orders) <= kCoarseOrders ? 2 : 1;
  const std::size_t count = kGrid / stride;
  grid.count = count;
  const Waves& wave = waves();
  for (std::size_t i = 0; i <= count / 4; ++i) {
    const Sums odd = summed(block, wave[i * stride], 0);
    const Sums even = summed(block, wave[i * stride], 1);
    const Lanes even_up = block.level + even.cosine + even.sine;
    const Lanes even_down = block.level + even.cosine - even.sine;
    const Lanes odd_up = odd.cosine + odd.sine;
    const Lanes odd_down = odd.cosine - odd.sine;
    grid.values[i] = even_up + odd_up;
    grid.values[(count - i) % count] = even_down + odd_down;
    grid.values[count / 2 - i] = even_down - odd_down;
    grid.values[(count / 2 + i) % count] = even_up - odd_up;
  }
  return grid;
}

Extremes extremes(const CurveGrid& grid) {
  Extremes ends{.highest = grid.values[0], .lowest = grid.values[0]};
  Lanes at_highest{};
  Lanes at_lowest{};
  for (std::size_t i = 1; i < grid.count; ++i) {
    const Lanes& value = grid.values[i];
    const Lanes index = Lanes::all(static_cast<float>(i));
    at_highest = where_above(value, ends.highest, index, at_highest);
    at_lowest = where_above(ends.lowest, value, index, at_lowest);
    ends.highest = larger(value, ends.highest);
    ends.lowest = smaller(value, ends.lowest);
  }
  return {.highest = refined(grid, at_highest), .lowest = refined(grid, at_lowest)};
}

void append(std::vector<float>& values, const Lanes& lanes) {
  const auto array = lanes.array();
  values.insert(values.end(), array.begin(), array.end());
}

Middle95 middle95(std::vector<float>& draws) {
  const auto count = static_cast<double>(draws.size());
  const auto place = [&](double share) {
    return draws.begin() + static_cast<std::ptrdiff_t>(std::clamp(std::ceil(share * count) - 1, 0.0, count - 1));
  };
  const auto low = place(0.025);
  const auto middle = place(0.5);
  const auto high = place(0.975);
  std::nth_element(draws.begin(), middle, draws.end());
  std::nth_element(draws.begin(), low, middle);
  std::nth_element(middle + 1, high, draws.end());
  return {
      .low95 = static_cast<double>(*low), .median = static_cast<double>(*middle), .high95 = static_cast<double>(*high)};
}

}  // namespace brakewright
