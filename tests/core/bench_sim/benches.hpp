#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <numbers>
#include <string>
#include <vector>

#include "core/bench_sim/mount/measure.hpp"
#include "core/bench_sim/mount/mounting.hpp"
#include "core/bench_sim/part/part.hpp"

namespace brakewright::bench_sim {

inline constexpr std::uint64_t kSeeds = 500;  ///< that a law is held to

/// A make of round figures: ring of 75 to 125 mm, swept from 77 to 123, vented, hat's flat 130 mm across.
inline PartMake plain_make() {
  PartMake make;
  make.outer_radius_mm = 125;
  make.inner_radius_mm = 75;
  make.new_thickness_mm = 25;
  make.shape = {
      .band_inner_radius_mm = 77, .band_outer_radius_mm = 123, .hat_radius_mm = 71, .hat_height_mm = 40, .vent_mm = 8};
  make.shape.seat.flat_outer_mm = 130;
  make.limits = {.discard_mm = 22.5, .machine_to_mm = 22.88, .variation_um = 15, .runout_um = 50};
  return make;
}

/// Only the faults that are named, on 360 angles and rings 1 mm apart.
inline SimPart plain_part(PartFaults faults = {}) {
  if (!faults.thickness_mm) faults.thickness_mm = 24;
  return part_of_faults(plain_make(), faults, 360, 1);
}

/// Any part of a seed, coarse.
inline DrawnPart coarse_part(std::uint64_t seed, int difficulty = 5) {
  return part_of_seed({.seed = seed, .difficulty = difficulty, .angles = 180, .ring_step_mm = 2});
}

/// Both faces cut clean by tools that make perfect planes, square to the spindle, `margin_um` under the lowest spot.
inline void cut_planes(SimPart& part, const Motion& motion, double margin_um = 1) {
  for (Side side : {Side::outboard, Side::inboard}) {
    auto& heights = part.face(side).height_um;
    std::vector<double> raised(heights.size());
    double lowest = 1e300;
    for (int r = 0; r < part.grid.rings; ++r) {
      for (int a = 0; a < part.grid.angles; ++a) {
        const std::size_t at = part.grid.at(r, a);
        raised[at] = raise_um(motion, side, part.grid.radius_mm(r), part.grid.angle_deg(a));
        lowest = std::min(lowest, raised[at] + static_cast<double>(heights[at]));
      }
    }
    for (std::size_t at = 0; at < heights.size(); ++at) heights[at] = stored_um(lowest - margin_um - raised[at]);
  }
}

inline std::vector<double> even_angles(int count) {
  std::vector<double> angles;
  for (int i = 0; i < count; ++i) angles.push_back(360.0 * i / count);
  return angles;
}

/// How far apart two directions are, 0 to 180.
inline double apart_deg(double a_deg, double b_deg) { return std::abs(std::remainder(a_deg - b_deg, 360)); }

inline std::uint64_t hash_of(const SimPart& part) {
  std::uint64_t hash = 14695981039346656037ULL;  // FNV-1a
  for (const auto* map : {&part.outboard.height_um, &part.inboard.height_um, &part.hardness}) {
    for (float value : *map) {
      std::uint32_t bits = 0;
      std::memcpy(&bits, &value, sizeof bits);
      hash = (hash ^ bits) * 1099511628211ULL;
    }
  }
  return hash;
}

}  // namespace brakewright::bench_sim
