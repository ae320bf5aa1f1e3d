#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace brakewright::cutting {

/// What is to be taken off, and within which rules. Lengths in the unit of the name.
struct PlanInput {
  double outer_radius_mm = 0;     ///< of the braking ring
  double inner_radius_mm = 0;     ///< > 0, below the outer one
  double approach_mm = 0;         ///< travel beyond the ring in one pass, >= 0
  double needed_outboard_um = 0;  ///< least depth, >= 0; 0 leaves that face alone
  double needed_inboard_um = 0;
  double start_min_mm = 0;                              ///< thinnest point before the cut, > 0
  std::optional<double> machine_to_mm;                  ///< least thickness after the cut; unknown when left out
  std::vector<double> speeds_rpm;                       ///< that the lathe has, each > 0
  std::vector<double> feeds_mm_per_rev;                 ///< that the lathe has, each > 0
  double dial_um_per_mark = 0;                          ///< depth on one face per mark, > 0
  std::optional<double> dial_inboard_um_per_mark = {};  ///< of the inboard dial, > 0; as the outboard's when left out
  double nose_radius_mm = 0;                            ///< > 0
  double max_speed_m_per_min = 0;                       ///< the insert's, > 0
  double rough_max_um = 0;                              ///< most that one pass takes off a face, >= 0
  double finish_min_um = 0;                             ///< least and most of the last pass on each face that is cut
  double finish_max_um = 0;
  double ra_target_um = 0;  ///< > 0
  double ra_factor = 1;     ///< real over ideal roughness, >= 1
};

struct Pass {
  std::int64_t outboard_marks = 0;
  std::int64_t inboard_marks = 0;
  double rpm = 0;
  double feed_mm_per_rev = 0;
  double time_s = 0;
  double ra_um = 0;                    ///< ideal, of the parabola
  double surface_speed_m_per_min = 0;  ///< at the outer edge
};

struct Plan {
  std::vector<Pass> passes;  ///< in order; empty when nothing is needed
  double time_s = 0;
  double final_mm = 0;  ///< start_min less every mark of both faces
};

/// The passes that finish soonest within the rules; then the fewest, then the lowest speed.
///
/// Each face is cut in all by the fewest whole marks of its own dial that reach its needed depth and can be divided
/// into passes: every pass but the last takes up to rough_max on a face, the last within [finish_min, finish_max] on
/// each face that is cut and at a feed with Ra * ra_factor <= target. A pass takes (outer - inner + approach)/(feed *
/// rpm) minutes whatever its depth, so the fewest passes at the quickest permitted feed and speed are the soonest.
/// Within them the last pass is as light as the others allow, and the rest is shared out evenly, the heavier passes
/// first.
/// @throws InputError "out_of_range" naming the field; "no_plan" when the rules leave none, with the field of the rule
/// that
///         is in the way: "machine_to_mm", "insert.max_speed_m_per_min", "lathe.feeds_mm_per_rev",
///         "rules.ra_target_um", "rules.rough_max_um" or "rules.finish_max_um"
/// Source: kinematics; the rules' usual values are common practice, no source.
Plan plan(const PlanInput& input);

}  // namespace brakewright::cutting
