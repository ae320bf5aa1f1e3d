#pragma once

#include <vector>

#include "core/circle/circle.hpp"
#include "core/thickness/thickness.hpp"

namespace brakewright::drum {

/// The trade's figures at one depth.
struct DepthFigures {
  double depth_mm = 0;
  double mean_mm = 0;
  double min_mm = 0;
  double max_mm = 0;
  double out_of_round_mm = 0;       ///< largest less least diameter
  std::vector<Harmonic> harmonics;  ///< of the diameter: even orders alone, in the drum's own turn
  std::vector<int> blind_orders;    ///< up to 12: all odd ones, and the even ones that these angles hardly see
};

/// What the diameters say of a drum's inside, less the zero error and at 20 C.
struct Shape {
  std::vector<DepthFigures> depths;  ///< from the open edge in
  double mean_mm = 0;
  double max_mm = 0;  ///< largest diameter
  double max_angle_deg = 0;
  double max_depth_mm = 0;
  double u_max_mm = 0;
  double out_of_round_mm = 0;      ///< of the depth where it is largest
  Posterior true_out_of_round_mm;  ///< of even orders, which a diameter shows
  double taper_mm = 0;             ///< mean at the deepest depth less that at the open edge
  double bell_mouth_mm = 0;        ///< mean at the open edge less that at the deepest depth; 0 where it is smaller
  double barrel_mm = 0;            ///< largest mean between the two edges less the larger of theirs; 0 where none
};

/// Depths stand in the place of radii, this much on: a radius is over nothing, a depth may be nothing.
inline constexpr double kDepthOffset_mm = 10;

/// @param mirrored  of `mirror_mm` less the diameters, as core/drum/mirror.hpp puts them
Shape shape_of(const Thickness& mirrored, double mirror_mm);

}  // namespace brakewright::drum
