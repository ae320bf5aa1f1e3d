#pragma once

namespace brakewright::cutting {

/// A cut that is taken by the round nose alone.
struct NoseCut {
  double depth_mm = 0;                 ///< > 0, at most the nose radius
  double feed_mm_per_rev = 0;          ///< > 0, at most twice the nose radius
  double nose_radius_mm = 0;           ///< > 0
  double kc11_n_per_mm2 = 1160;        ///< specific force at 1 mm chip thickness; 1160 is grey iron GJL-250
  double mc = 0.26;                    ///< its fall with chip thickness, from 0 to below 1
  double surface_speed_m_per_min = 0;  ///< >= 0
};

struct NoseForce {
  double chip_area_mm2 = 0;
  double contact_mm = 0;  ///< length of the edge in cut
  double h_max_um = 0;    ///< thickest chip
  double force_n = 0;     ///< cutting force, along the surface
  double power_w = 0;
  double mean_cos = 0;        ///< share of the edge-normal force that points into the disc
  bool extrapolated = false;  ///< the chip is thinner than 0.05 mm, where the law's constants were not measured
  double force_low_n = 0;     ///< -20 %
  double force_high_n = 0;    ///< +20 %, or +50 % where extrapolated
};

/// Cutting force of a round nose, Kienzle's law summed along the arc.
///
/// F = integral of kc11 h^(1-mc) ds from -asin(f/2r) to acos((r-a)/r), h the distance along the radius to the arc of
/// the turn before or to the uncut surface. A straight-edge formula points the force the wrong way here: with a <= r
/// nearly all of the edge-normal force bends the disc.
/// @throws InputError "out_of_range" naming the field
/// Source: Kienzle (1952); constants 1160 and 0.26 from memory of Koenig/Essel and Paucksch, within 5.2 % of two
/// published tables for EN-GJL-250; the bands are the spread between sources.
NoseForce nose_force(const NoseCut& cut);

}  // namespace brakewright::cutting
