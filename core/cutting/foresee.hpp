#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace brakewright::cutting {

/// One pass as it is set: by the plan, or by a person who tries something.
struct PassSetting {
  std::int64_t outboard_marks = 0;  ///< >= 0, on from the pass before
  std::int64_t inboard_marks = 0;
  double rpm = 0;              ///< > 0
  double feed_mm_per_rev = 0;  ///< > 0, at most twice the nose radius
};

/// The part, the lathe, the insert and the rules under which passes are looked at.
struct ForeseeInput {
  double outer_radius_mm = 0;  ///< of the braking ring
  double inner_radius_mm = 0;  ///< > 0, below the outer one
  double approach_mm = 0;      ///< travel beyond the ring in one pass, >= 0
  double start_min_mm = 0;     ///< thinnest point before the cut, > 0
  double u_start_min_um = 0;   ///< its standard uncertainty, >= 0
  std::optional<double> machine_to_mm = {};
  std::optional<double> discard_mm = {};
  double dial_um_per_mark = 0;                          ///< depth on one face per mark, > 0
  std::optional<double> dial_inboard_um_per_mark = {};  ///< of the inboard dial; as the outboard's when left out
  double dial_sd_um = 2.5;                              ///< standard deviation of one setting of one dial, >= 0
  std::vector<double> speeds_rpm = {};                  ///< that the lathe has; empty: not asked
  std::vector<double> feeds_mm_per_rev = {};            ///< that the lathe has; empty: not asked
  double nose_radius_mm = 0;                            ///< > 0
  double max_speed_m_per_min = 0;                       ///< the insert's, > 0
  double kc11_n_per_mm2 = 1160;                         ///< as NoseCut
  double mc = 0.26;
  double rough_max_um = 0;  ///< the rules, as PlanInput
  double finish_min_um = 0;
  double finish_max_um = 0;
  double ra_target_um = 0;
  double ra_factor = 1;
  double confidence = 0.95;  ///< wanted of staying over machine-to, from 0.5 to below 1
  std::vector<PassSetting> passes = {};
};

/// Force along the surface on one face, with the band of nose_force.
struct SideForce {
  double n = 0;
  double low_n = 0;
  double high_n = 0;
};

struct ForeseenPass {
  double time_s = 0;
  double surface_speed_m_per_min = 0;  ///< at the outer edge
  double ra_um = 0;                    ///< ideal, of the parabola
  double ra_low_um = 0;                ///< band of what a sharp tool leaves in grey iron
  double ra_high_um = 0;
  std::optional<SideForce> outboard;  ///< 0 where nothing is cut; absent where the depth is beyond the nose radius
  std::optional<SideForce> inboard;
  std::optional<double> power_w;    ///< of both faces at the outer edge; absent where a force is
  bool extrapolated = false;        ///< a chip is thinner than the force law was measured for
  double thickness_after_mm = 0;    ///< thinnest point
  double u_thickness_after_um = 0;  ///< standard uncertainty
  std::optional<double> p_over_machine_to;
  std::optional<double> p_over_discard;
  double cut_length_outboard_m = 0;  ///< way of the edge through the metal; 0 where nothing is cut
  double cut_length_inboard_m = 0;
};

/// A rule that a pass breaks. The passes can still be cut: it is for a person to say.
struct PassWarning {
  std::string code;  ///< "speed_over_insert", "speed_not_on_lathe", "feed_not_on_lathe", "rough_over_max",
                     ///< "finish_out_of_range", "ra_over_target", "under_machine_to", "near_machine_to",
                     ///< "under_discard", "nothing_left", "depth_over_nose", "rubbing", "nothing_cut"
  std::string text;
  std::size_t pass = 0;   ///< counted from 0
  std::string side = {};  ///< "outboard", "inboard"; empty where it is the pass as a whole
};

struct Foresight {
  std::vector<ForeseenPass> passes;  ///< in the order of the settings
  double time_s = 0;
  double final_mm = 0;  ///< start_min less every mark of both faces
  double u_final_um = 0;
  double cut_length_outboard_m = 0;
  double cut_length_inboard_m = 0;
  std::vector<PassWarning> warnings;  ///< by pass
};

/// What passes will do, whoever chose them: time, finish, force, and what they leave.
///
/// The thinnest point loses every mark of both faces, as in plan(). Its uncertainty is that of the start and of each
/// setting so far, added as independent errors: cautious where all settings are read from one zero of the dial.
/// p_over = Phi((thickness - limit)/u); with u = 0 it is 0 or 1, a thickness on machine-to being over it and one on
/// discard not.
/// The edge's way through the metal is the ring's area over the feed, the length of the spiral.
/// @throws InputError "out_of_range" naming the field, passes as "passes[2].rpm"; also more than 1000 passes
/// No passes: nothing happens, and final_mm is start_min_mm.
/// Source: kinematics; finish() and nose_force(); under 0.05 mm an edge rubs: common practice, no source.
Foresight foresee(const ForeseeInput& input);

}  // namespace brakewright::cutting
