#pragma once

#include <optional>
#include <vector>

#include "core/cutting/foresee.hpp"
#include "core/cutting/plan.hpp"

namespace brakewright::drum {

/// What is to be turned off a drum's inside, and within which rules.
struct BorePlanInput {
  double diameter_mm = 0;  ///< largest, before the cut, 50 to 1500
  double width_mm = 0;     ///< of the braking band, more than 0
  double approach_mm = 0;
  double needed_um = 0;                 ///< least depth on the radius from where the tool first touches
  double first_touch_mm = 0;            ///< least diameter: where the tool first touches
  std::optional<double> machine_to_mm;  ///< largest diameter after the cut
  std::vector<double> speeds_rpm;
  std::vector<double> feeds_mm_per_rev;
  double dial_um_per_mark = 0;  ///< on the radius
  double nose_radius_mm = 0;
  double max_speed_m_per_min = 0;
  /// Depths on the radius. Common practice, no source: rough up to 120 to 200 um, last pass 25 to 38 um.
  double rough_max_um = 150;
  double finish_min_um = 25;
  double finish_max_um = 40;
  double ra_target_um = 0;
  double ra_factor = 1;
};

struct BorePass {
  std::int64_t marks = 0;
  double depth_on_radius_um = 0;
  double change_on_diameter_um = 0;
  double diameter_after_mm = 0;  ///< where the tool has been: smaller than the drum's largest until it is clean
  double rpm = 0;
  double feed_mm_per_rev = 0;
  double time_s = 0;
  double ra_um = 0;
  double surface_speed_m_per_min = 0;
};

struct BorePlan {
  std::vector<BorePass> passes;
  double time_s = 0;
  double final_mm = 0;  ///< diameter
};

/// Passes for a drum: the one-sided plan of cutting::plan, with travel along the band in the place of the ring and
/// the surface speed at the bore.
/// @throws InputError as cutting::plan, and "out_of_range" for `plan.width_mm`, `plan.diameter_mm`
/// Source: methods 9 and 16.
BorePlan plan_bore(const BorePlanInput& input);

/// One pass as it is set.
struct BoreSetting {
  std::int64_t marks = 0;  ///< on from the pass before
  double rpm = 0;
  double feed_mm_per_rev = 0;
};

/// What beside the plan's own input is needed to look ahead.
struct BoreOutlook {
  double u_diameter_um = 0;  ///< standard uncertainty of the largest diameter
  std::optional<double> discard_mm = {};
  double dial_sd_um = 2.5;   ///< standard deviation of one setting, on the radius
  double confidence = 0.95;  ///< wanted of staying within machine-to
  std::vector<BoreSetting> passes = {};
};

struct ForeseenBorePass {
  double time_s = 0;
  double surface_speed_m_per_min = 0;
  double ra_um = 0;      ///< ideal
  double ra_low_um = 0;  ///< band of what a sharp tool leaves in grey iron
  double ra_high_um = 0;
  std::optional<cutting::SideForce> force;  ///< absent where the depth is beyond the nose radius
  std::optional<double> power_w;
  double depth_on_radius_um = 0;
  double change_on_diameter_um = 0;
  double diameter_after_mm = 0;    ///< largest of the drum
  double u_diameter_after_um = 0;  ///< standard uncertainty
  std::optional<double> p_within_machine_to;
};

struct BoreForesight {
  std::vector<ForeseenBorePass> passes;
  double time_s = 0;
  double final_mm = 0;                         ///< largest diameter after them
  std::vector<cutting::PassWarning> warnings;  ///< codes of cutting::foresee; "over_machine_to", "over_discard" and
                                               ///< "nothing_left" in the terms of a diameter
};

/// What passes will do in a drum, whoever chose them: cutting::foresee with travel along the band in the place of the
/// ring.
/// @throws InputError as cutting::foresee, passes as "passes[2].rpm"
/// Source: methods 9 and 16.
BoreForesight foresee_bore(const BorePlanInput& input, const BoreOutlook& outlook);

/// How far the tool's point travels through the metal in one pass, metres: the spiral along the band.
double bore_cut_length_m(double diameter_mm, double width_mm, double feed_mm_per_rev);

}  // namespace brakewright::drum
