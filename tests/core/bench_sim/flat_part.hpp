#pragma once

#include <cmath>

#include "core/bench_sim/cut/cut.hpp"

namespace brakewright::bench_sim {

/// A perfect part of plain iron.
inline SimPart flat_part(const FaceGrid& grid) {
  SimPart part;
  part.grid = grid;
  part.nominal_thickness_mm = 25;
  part.outboard.height_um.assign(grid.cells(), 0);
  part.inboard.height_um.assign(grid.cells(), 0);
  part.hardness.assign(grid.cells(), 1);
  return part;
}

/// An edge so sharp that no chip is too thin.
inline RoundNose sharp(double radius_mm) { return {.radius_mm = radius_mm, .edge_radius_um = 0}; }

/// From one nose radius inside of the rings to one outside.
inline void cut_over(Cut& cut, const SimPart& part, double nose_radius_mm) {
  const double way_mm = (part.grid.rings - 1) * part.grid.ring_step_mm + 2 * nose_radius_mm;
  cut.advance(static_cast<int>(way_mm / cut.setup().feed_mm_per_rev * part.grid.angles) + 1);
  cut.settle();
}

}  // namespace brakewright::bench_sim
