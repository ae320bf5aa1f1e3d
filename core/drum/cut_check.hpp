#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/drum/drum.hpp"
#include "core/verdict/after_cut.hpp"

namespace brakewright::drum {

/// Mean of one diameter's readings, less the zero error and at 20 C.
struct SpotMean {
  double depth_mm = 0;
  double angle_deg = 0;
  double mean_mm = 0;
  std::size_t count = 0;
};

/// What the diameters of one stage say by themselves.
struct Figures : Shape {
  std::vector<SpotMean> points;  ///< in the order of the readings
  std::optional<double> p_under_discard;
  std::optional<double> p_within_machine_to;  ///< the machine-to given, no house rule
  std::optional<double> p_out_of_round_within;
  std::optional<double> p_taper_within;
  std::vector<Advice> advice;  ///< what to know of the readings
};

/// How the figures are drawn.
struct Draws {
  double confidence = 0.95;  ///< within [0.5, 1)
  std::uint64_t seed = 1;
  std::size_t count = 20000;  ///< 100 to 200 000
};

/// The diameters of a drum at one stage, reduced as a rotor's thickness is.
/// @throws InputError naming the field, as "readings[2].values_mm[0]" or "gauge.mpe_mm"
/// Source: methods 3 and 16.
Figures reduce_diameters(const Drum& drum, const Draws& draws);

/// A drum before and after it was turned. Limits and names are those of `after`.
struct CutCheckInput {
  Drum before;  ///< read at the same depths and angles as `after`, in any order
  Drum after;
  std::optional<double> marks = {};             ///< that the dial took from first touch, 0 to 10 000
  double dial_um_per_mark = 25.4;               ///< on the radius
  double dial_repeatability_um = 2.5;           ///< standard deviation of a setting, on the radius
  std::optional<double> planned_final_mm = {};  ///< diameter that the plan said would be left
  std::optional<double> ra_um = {};             ///< typed from a roughness tester
  double u_ra_relative = 0.1;                   ///< its relative standard uncertainty
  Draws draws = {};
};

struct TakenAtSpot {
  double depth_mm = 0;
  double angle_deg = 0;
  double before_mm = 0;
  double after_mm = 0;
  double taken_um = 0;  ///< on the diameter
};

struct CutCheck {
  Outcome outcome = Outcome::cannot_tell;  ///< fail when any check fails, pass when all pass
  std::vector<TakenAtSpot> taken;
  double taken_mean_um = 0;  ///< these on the diameter
  double taken_min_um = 0;
  double taken_max_um = 0;
  double u_taken_mean_um = 0;
  std::optional<double> planned_on_radius_um;  ///< what the dial took
  std::optional<double> planned_um;            ///< twice that: on the diameter
  /// Mean diameter after less planned_final_mm, where that was given; else taken on the mean less what the dial took
  /// (usually negative: the dial counts from first touch).
  std::optional<double> difference_um;
  std::optional<bool> agrees_with_plan;
  Figures after;
  std::vector<AfterCheck> checks;  ///< "machine_to", "discard", "out_of_round", "taper", "finish"
  std::vector<Advice> advice;
};

/// What the cut took off a drum and whether it is now within its limits: check_after_cut through the mirror, so that
/// what is asked of a rotor's thickness is asked of what is left to turn away.
///
/// A mark goes on the radius and counts twice on the diameter. A gauge across the diameter does not see what an
/// off-centre mount did; that shows on an indicator alone.
/// @throws InputError naming the field, as "after.readings[2].values_mm[0]"; "sizes_differ" at "after.readings" when
///         its spots are not those of `before`; "dial_um_per_mark", "marks" and the rest as named here
/// Source: methods 3, 7 and 16.
CutCheck check_drum_cut(const CutCheckInput& input);

}  // namespace brakewright::drum
