#include "core/bench_sim/cut/chip.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>

#include "core/bench_sim/cut/power.hpp"

namespace brakewright::bench_sim {
namespace {

template <int kCount>
using Floats = typename Wide<kCount>::Floats;

/// What one lane of the rings has summed.
template <int kCount>
struct Sums {
  Floats<kCount> pressure = {}, taken = {}, moment = {}, thickest = {};
};

/// What of a pass is the same for all its rings, thicknesses in millimetres.
struct Nose {
  float square_um2 = 0;     ///< of the radius
  float mm_per_radius = 0;  ///< a thousandth over the radius
  float least_chip_mm = 0;
  Power power;
};

template <int kCount>
[[gnu::always_inline]] inline void take_some(float* height, const float* hardness, float* top, const Floats<kCount>& x,
                                             const NosePass& pass, const Nose& nose, Sums<kCount>& sums) {
  using Some = Floats<kCount>;
  const Some none = {};
  const Some room = nose.square_um2 - x * x;
  Some across = room > none ? room : none;
  for (int i = 0; i < kCount; ++i) across[i] = __builtin_sqrtf(across[i]);
  Some before, highest, factor;
  std::memcpy(&before, height, sizeof before);
  std::memcpy(&highest, top, sizeof highest);
  const Some edge = pass.tip_um + x * x / (pass.radius_um + across);
  const Some over = (before - edge) * (across * nose.mm_per_radius);
  const Some chip = over > none ? over : none;
  const Some after = chip > none + nose.least_chip_mm ? edge : before;
  Some pressure = chip;
  raise<kCount>(pressure, nose.power);
  pressure = chip > none ? pressure : none;
  if (hardness) {
    std::memcpy(&factor, hardness, sizeof factor);
    pressure *= factor;
  }
  highest = highest > after ? highest : after;
  std::memcpy(height, &after, sizeof after);
  std::memcpy(top, &highest, sizeof highest);
  const Some taken = before - after;
  sums.pressure += pressure;
  sums.taken += taken;
  sums.moment += taken * x;
  sums.thickest = sums.thickest > chip ? sums.thickest : chip;
}

/// In pairs, so that no addition waits for all before it.
[[gnu::always_inline]] inline double sum_of(const float* lanes) {
  double sums[kLanes / 2];
  for (int i = 0; i < kLanes / 2; ++i) sums[i] = static_cast<double>(lanes[i]) + static_cast<double>(lanes[i + 4]);
  return (sums[0] + sums[2]) + (sums[1] + sums[3]);
}

/// @tparam kCount  how many rings at once; kLanes in all, each with its own sum, whatever it is
template <int kCount>
[[gnu::always_inline]] inline void take(const NoseRow& given_row, int from, int to, const NosePass& given_pass,
                                        NoseTake& whole) {
  // copies, which the heights that are written cannot be taken to change
  const NoseRow row = given_row;
  const NosePass pass = given_pass;
  const Nose nose{.square_um2 = pass.radius_um * pass.radius_um,
                  .mm_per_radius = 1e-3F / pass.radius_um,
                  .least_chip_mm = pass.least_chip_um * 1e-3F,
                  .power = power_of(pass.exponent)};
  constexpr std::size_t kParts = kLanes / kCount;
  Sums<kCount> sums[kParts];
  Floats<kCount> ring = {};
  for (int i = 0; i < kCount; ++i) ring[i] = static_cast<float>(i);
  const int first_block = from % row.blocks;
  float* height = row.height + static_cast<std::size_t>(first_block) * row.next_height;
  const float* hardness =
      row.hardness ? row.hardness + static_cast<std::size_t>(first_block) * row.next_height : nullptr;
  float* top = row.top + static_cast<std::size_t>(first_block) * row.next_top;
  int left = row.blocks - first_block;
  for (int group = from; group < to; ++group) {
    const float first = static_cast<float>(group * kLanes - pass.centre);
    for (std::size_t part = 0; part < kParts; ++part) {
      const std::size_t at = part * kCount;
      const Floats<kCount> x = ((ring + static_cast<float>(at)) + first) * pass.step_um;
      take_some<kCount>(height + at, hardness ? hardness + at : nullptr, top + at, x, pass, nose, sums[part]);
    }
    const bool around = --left == 0;
    if (around) left = row.blocks;
    height = around ? row.height : height + row.next_height;
    hardness = hardness ? (around ? row.hardness : hardness + row.next_height) : nullptr;
    top = around ? row.top : top + row.next_top;
  }
  float pressure[kLanes], taken[kLanes], moment[kLanes], thickest[kLanes];
  for (std::size_t part = 0; part < kParts; ++part) {
    std::memcpy(pressure + part * kCount, &sums[part].pressure, sizeof sums[part].pressure);
    std::memcpy(taken + part * kCount, &sums[part].taken, sizeof sums[part].taken);
    std::memcpy(moment + part * kCount, &sums[part].moment, sizeof sums[part].moment);
    std::memcpy(thickest + part * kCount, &sums[part].thickest, sizeof sums[part].thickest);
  }
  whole = {.pressure = sum_of(pressure),
           .taken_um = sum_of(taken),
           .moment_um2 = sum_of(moment),
           .thickest_um = *std::max_element(thickest, thickest + kLanes) * 1e3F};
}

#ifdef __x86_64__
/// It has no fused instructions, so that the bits are those of the plain one.
[[gnu::target("avx2")]] void take_eight(const NoseRow& row, int from, int to, const NosePass& pass, NoseTake& whole) {
  take<8>(row, from, to, pass, whole);
}

bool has_eight() {
  static const bool has = __builtin_cpu_supports("avx2") != 0;
  return has;
}
#else
void take_eight(const NoseRow& row, int from, int to, const NosePass& pass, NoseTake& whole) {
  take<4>(row, from, to, pass, whole);
}

bool has_eight() { return false; }
#endif

}  // namespace

NoseTake take_row_plainly(const NoseRow& row, int from, int to, const NosePass& pass) {
  NoseTake whole;
  take<4>(row, from, to, pass, whole);
  return whole;
}

NoseTake take_row(const NoseRow& row, int from, int to, const NosePass& pass) {
  if (!has_eight()) return take_row_plainly(row, from, to, pass);
  NoseTake whole;
  take_eight(row, from, to, pass, whole);
  return whole;
}

double nose_rise_um(double radius_um, double x_um) {
  const double across = std::sqrt(std::max(0.0, radius_um * radius_um - x_um * x_um));
  return x_um * x_um / (radius_um + across);
}

}  // namespace brakewright::bench_sim
