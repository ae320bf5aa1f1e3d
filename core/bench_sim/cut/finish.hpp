#pragma once

#include <optional>

#include "core/bench_sim/part/faces.hpp"

namespace brakewright::bench_sim {

/// Roughness along the radius, about a straight line, unfiltered.
struct RadialFinish {
  double ra_um = 0;
  double rt_um = 0;  ///< highest less lowest
};

/// Of a face between two radii at one angle.
/// @param angle  of the grid
/// @throws InputError "out_of_range", field "angle", or "to_radius_mm" where fewer than 8 rings lie between
RadialFinish radial_finish(const FaceGrid& grid, const Face& face, int angle, double from_radius_mm,
                           double to_radius_mm);

/// Waves round a face that stand out of its roughness.
struct FaceMarks {
  double per_turn = 0;
  double u_per_turn = 0;  ///< standard uncertainty
  double height_um = 0;   ///< peak to valley of the wave
  double p_chance = 0;    ///< that roughness alone shows such a line
};

/// The highest clear wave of one ring, of six or more to a turn and three or more angles to a wave; the shape of the
/// part, its first four harmonics, is taken out first. Nothing where no wave stands out.
/// @throws InputError "out_of_range", field "radius_mm", or "grid.angles" for fewer than 100
/// Source: `clear_lines` with a turn for a second or two; the frequency is per_turn * rpm/60.
std::optional<FaceMarks> face_marks(const FaceGrid& grid, const Face& face, double radius_mm);

}  // namespace brakewright::bench_sim
