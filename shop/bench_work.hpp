#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/length/length.hpp"
#include "shop/times.hpp"
#include "shop/uuid.hpp"

/// What is done to one part at the lathe: mounted, proven, planned, cut pass by pass, finished. None of it is ever
/// changed; a later entry stands beside the earlier ones.
namespace brakewright::shop {

/// The stack that went on the arbor.
struct Mount {
  Uuid id = {};
  Uuid job_id = {};
  Uuid part_id = {};
  Uuid lathe_id = {};
  std::vector<Uuid> piece_ids = {};  ///< from the shoulder outward, the nut last, the part itself left out
  double length_mm = 0;              ///< from the shoulder to the nut; 0 where the pieces keep to no rule
  std::vector<double> q = {};        ///< how far up the cone, or each taper, the part sits
  std::vector<std::string> why = {};
  std::string reason = {};  ///< needed when the pieces break a rule of mounting
  Uuid by_person_id = {};
  UtcTime at = {};

  friend bool operator==(const Mount&, const Mount&) = default;
};

/// A mark that a tool left on the turning face.
struct ProofMark {
  double centre_deg = 0;  ///< from the index mark, in the part's own frame
  double arc_deg = 0;
  double infeed_um = 0;  ///< travel past first touch

  friend bool operator==(const ProofMark&, const ProofMark&) = default;
};

enum class ProofKind { indicator, scratch };

/// How true the part runs as mounted.
struct MountProof {
  Uuid id = {};
  Uuid job_id = {};
  Uuid part_id = {};
  ProofKind kind = ProofKind::indicator;
  std::optional<TypedLength> runout = {};  ///< indicator: the whole swing, where no trace was taken
  std::vector<double> trace_um = {};       ///< indicator: at evenly spaced angles from the index mark
  std::vector<ProofMark> marks = {};       ///< scratch: one, or two with the part turned half a turn between them
  double runout_um = 0;                    ///< of the face as mounted, peak to valley
  bool upper_bound = false;                ///< the mark goes all the way round: the runout is at most this
  std::optional<double> part_runout_um = {};
  std::optional<double> part_high_deg = {};
  std::optional<double> mount_runout_um = {};
  std::optional<double> mount_high_deg = {};
  double allowed_um = 0;    ///< the shop's rule at that moment
  double costs_um = 0;      ///< thickness that cutting in this mount would cost
  bool goes_on = false;     ///< the mount is used as it is
  std::string reason = {};  ///< needed when it goes on over the rule
  Uuid by_person_id = {};
  UtcTime at = {};

  friend bool operator==(const MountProof&, const MountProof&) = default;
};

/// One pass as set: what the dials and the levers are turned to.
struct PlannedPass {
  std::int64_t outboard_marks = 0;
  std::int64_t inboard_marks = 0;
  double rpm = 0;
  double feed_mm_per_rev = 0;

  friend bool operator==(const PlannedPass&, const PlannedPass&) = default;
};

/// One pass with what it will do, from core/cutting.
struct ForeseenPass {
  std::int64_t outboard_marks = 0;
  std::int64_t inboard_marks = 0;
  double rpm = 0;
  double feed_mm_per_rev = 0;
  double time_s = 0;
  double surface_speed_m_per_min = 0;
  double ra_um = 0;
  double ra_low_um = 0;
  double ra_high_um = 0;
  std::optional<double> force_outboard_n = {};
  std::optional<double> force_inboard_n = {};
  std::optional<double> power_w = {};
  std::optional<double> thickness_after_mm = {};  ///< these of a disc alone: its thinnest point
  std::optional<double> u_thickness_after_um = {};
  std::optional<double> p_over_machine_to = {};  ///< of a drum: within machine-to
  /// These of a drum alone. The depth is on the radius, the change on the diameter.
  std::optional<double> depth_on_radius_um = {};
  std::optional<double> change_on_diameter_um = {};
  std::optional<double> diameter_after_mm = {};  ///< largest
  std::optional<double> u_diameter_after_um = {};

  friend bool operator==(const ForeseenPass&, const ForeseenPass&) = default;
};

/// The passes that were settled on for one part.
struct CutPlan {
  Uuid id = {};
  Uuid job_id = {};
  Uuid part_id = {};
  Uuid lathe_id = {};
  std::optional<Uuid> insert_id = {};
  std::vector<ForeseenPass> passes = {};
  double time_s = 0;
  double final_mm = 0;
  bool by_hand = false;  ///< a person set other passes than the computed ones
  Uuid by_person_id = {};
  UtcTime at = {};

  friend bool operator==(const CutPlan&, const CutPlan&) = default;
};

enum class PassOutcome { finished, stopped };

/// One pass as it was cut.
struct Pass {
  Uuid id = {};
  Uuid job_id = {};
  Uuid part_id = {};
  std::optional<Uuid> plan_id = {};
  std::int64_t number = 1;  ///< counts the part's passes
  std::int64_t outboard_marks = 0;
  std::int64_t inboard_marks = 0;
  double rpm = 0;
  double feed_mm_per_rev = 0;
  std::optional<Uuid> outboard_corner_id = {};
  std::optional<Uuid> inboard_corner_id = {};
  PassOutcome outcome = PassOutcome::finished;
  UtcTime began_at = {};  ///< by the tablet's clock
  UtcTime ended_at = {};
  std::string note = {};
  Uuid by_person_id = {};
  UtcTime at = {};

  friend bool operator==(const Pass&, const Pass&) = default;
};

enum class BenchPhase { mount, cut, finish, refit };
enum class StepEvent { done, undone, begun, paused, resumed, stopped, trouble };

/// One step at the bench, when it was ticked, paused, or went wrong.
struct BenchStep {
  Uuid id = {};
  Uuid job_id = {};
  Uuid part_id = {};
  BenchPhase phase = BenchPhase::cut;
  std::string step = {};  ///< a stable word, such as "band_on"
  std::int64_t pass = 0;  ///< of which pass; 0 where it belongs to none
  StepEvent event = StepEvent::done;
  std::string detail = {};  ///< of trouble: what; else what was typed
  Uuid by_person_id = {};
  UtcTime taken_at = {};     ///< by the tablet's clock
  UtcTime received_at = {};  ///< by the shop's clock

  friend bool operator==(const BenchStep&, const BenchStep&) = default;
};

}  // namespace brakewright::shop
