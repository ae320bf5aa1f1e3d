#include <cmath>

#include "core/practice/state.hpp"

namespace brakewright::practice {

bench_sim::SimPart part_before(const BenchState& state) {
  constexpr int kCoarseAngles = 180;
  return bench_sim::part_of_faults(state.truth.make, state.truth.part, kCoarseAngles, kRingStep_mm);
}

FaceChange change_of(const BenchState& state, const bench_sim::SimPart& before, Side side, double from_mm,
                     double to_mm) {
  constexpr float kTaken_um = 0.5F;
  const auto& coarse = before.grid;
  const auto& fine = state.part.grid;
  const int per_angle = fine.angles / coarse.angles;
  std::int64_t taken = 0, all = 0;
  double sum_um = 0;
  for (int r = 0; r < coarse.rings; ++r) {
    const double radius_mm = coarse.radius_mm(r);
    if (radius_mm < from_mm || radius_mm > to_mm) continue;
    for (int a = 0; a < coarse.angles; ++a) {
      const float was = before.face(side).height_um[coarse.at(r, a)];
      const float now = state.part.face(side).height_um[fine.at(r, a * per_angle)];
      taken += now < was - kTaken_um;
      sum_um += static_cast<double>(was - now);
      ++all;
    }
  }
  if (all == 0) return {.taken_share = 1, .depth_um = 0};
  return {.taken_share = static_cast<double>(taken) / static_cast<double>(all),
          .depth_um = sum_um / static_cast<double>(all)};
}

FaceChange band_change(const BenchState& state, const bench_sim::SimPart& before, Side side) {
  const auto& shape = state.truth.make.shape;
  return change_of(state, before, side, shape.band_inner_radius_mm, shape.band_outer_radius_mm);
}

double wall_difference_mm(const BenchState& state, const bench_sim::SimPart& before) {
  if (state.truth.make.shape.vent_mm == 0) return 0;
  const auto depth_um = [&](Side side) { return band_change(state, before, side).depth_um; };
  const double came_mm = before.shape.outboard_cheek_mm - before.shape.inboard_cheek_mm;
  return came_mm - (depth_um(Side::outboard) - depth_um(Side::inboard)) / 1000;
}

}  // namespace brakewright::practice
