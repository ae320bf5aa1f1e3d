#pragma once

#include <cstdint>
#include <vector>

#include "core/bench_sim/mount/mounting.hpp"
#include "core/bench_sim/part/faces.hpp"
#include "core/runout/runout.hpp"

namespace brakewright::bench_sim {

/// A micrometer as it really is; what its certificate says of it is core's `Micrometer`.
struct SimMicrometer {
  double resolution_mm = 0.001;     ///< step of its last digit, 1e-6 to 1
  double zero_error_mm = 0;         ///< shown when closed on nothing, +-1
  double error_mm = 0;              ///< of its own beyond that, the same in every reading, +-1
  double repeatability_mm = 0.001;  ///< standard deviation of a reading, 0 to 1: the hand that holds it counts
  /// Of both flat anvils, which come to stand on the highest iron under them, 0 to 30; 0 is a point or a small ball.
  /// 6.5 mm is common practice, no source.
  double anvil_diameter_mm = 6.5;
  double misread_chance = 0;     ///< that a reading is a whole turn of the thimble off, either way alike, 0 to 1
  double thimble_turn_mm = 0.5;  ///< 0.01 to 2; 0.635 (0.025 in) on an inch thimble
};

/// Where a micrometer is put.
struct Spot {
  double radius_mm = 0;  ///< on the face
  double angle_deg = 0;  ///< within +-1e6; taken modulo 360
};

/// How thick the iron is between the anvils, at 20 C, with no error of the instrument.
///
/// Flat anvils are held square to the part as a whole: the lean that both faces share round this radius is taken out.
/// They bridge a groove that is narrower than they are, and stand on a lip that they reach.
/// @throws InputError "out_of_range", fields "spot.radius_mm", "micrometer.anvil_diameter_mm"; "not_finite",
///         "spot.angle_deg"
double thickness_between_anvils_mm(const SimPart& part, double anvil_diameter_mm, const Spot& spot);

/// What the micrometer shows: that thickness grown by 11e-6 per K over 20 C, plus the instrument's errors, rounded to
/// its last digit.
/// @param temperature_c  of the part, -40 to 400; the micrometer is at 20 C
/// @param number         of the reading, below 2^40: the same number of the same seed reads the same again
/// @throws InputError "out_of_range" or "not_finite" naming "micrometer...", "spot...", "temperature_c" or "number"
double read_thickness_mm(const SimPart& part, const SimMicrometer& micrometer, const Spot& spot, double temperature_c,
                         std::uint64_t seed, std::uint64_t number);

/// An indicator on a stand.
struct SimIndicator {
  double resolution_um = 1;       ///< 0.01 to 100
  double repeatability_um = 0.5;  ///< standard deviation of a reading, 0 to 100
  double play_um = 0;             ///< in its movement: what the tip goes back before the hand follows, 0 to 500
  double creep_um_per_turn = 0;   ///< of a stand or a bearing that gives while the part is turned, +-1000
};

/// One turn, or more, of an indicator against a face on the bench: zero at the first reading's place.
///
/// The part is turned forwards from each angle to the next, past everything between them; the hand follows the tip
/// less half the play on either side.
/// @param angles_deg  of the part's own index mark under the tip, [0, 360), 1 to 10 000, in the order read
/// @returns the same angles and what is shown, outward of that side positive
/// @throws InputError "out_of_range", "not_finite", "too_few", "too_many" naming "angles_deg[3]", "radius_mm",
///         "indicator.play_um", ...
RunoutTrace read_face(const SimPart& part, const Motion& motion, Side side, double radius_mm,
                      const std::vector<double>& angles_deg, const SimIndicator& indicator, std::uint64_t seed,
                      std::uint64_t number);

}  // namespace brakewright::bench_sim
