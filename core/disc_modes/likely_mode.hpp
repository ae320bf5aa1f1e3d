#pragma once

#include <optional>
#include <span>

#include "core/disc_modes/plate.hpp"

namespace brakewright::disc_modes {

/// The mode of the plate that a frequency heard or read off the face fits best.
struct LikelyMode {
  PlateMode mode;
  double probability = 0;  ///< of this one, against all other modes and none of them
};

/// How far a real disc may lie from the plate, as a relative standard deviation: its hat and vanes are no flat ring.
/// Common practice, no source.
inline constexpr double kPlateSpread = 0.08;

/// Weighs every mode by how near it lies, and "none of them" by as many as an even spread over the octave about it
/// would give.
/// @param hz    > 0
/// @param u_hz  its standard uncertainty, >= 0
/// @return nothing where there are no modes
std::optional<LikelyMode> likely_mode(std::span<const PlateMode> modes, double hz, double u_hz);

/// Waves left on a spoilt face.
struct ChatterMarks {
  double hz = 0;
  double u_hz = 0;
  double per_turn = 0;
  double surface_speed_m_per_min = 0;
};

/// The frequency that left marks so far apart: surface speed over spacing.
/// @param spacing_mm    1e-3 to 1000 and at most once round, along the face
/// @param u_spacing_mm  0 to the spacing itself
/// @param radius_mm     1 to 10 000, where it was measured
/// @param rpm           0.01 to 1e6
/// @throws InputError "out_of_range" or "not_finite" naming `marks.spacing_mm` ...
/// Source: kinematics; methods 10.
ChatterMarks frequency_of_marks(double spacing_mm, double u_spacing_mm, double radius_mm, double rpm);

}  // namespace brakewright::disc_modes
