#pragma once

#include <cstdint>
#include <optional>

#include "shop/entities.hpp"

namespace brakewright::shop {

/// How many of the wanted spots of one part at one stage have a current reading.
struct Progress {
  std::int64_t thickness_done = 0;    ///< distinct spots
  std::int64_t thickness_wanted = 0;  ///< points times circles of the plan; 0 without a plan, and of a drum
  std::int64_t runout_done = 0;       ///< distinct points of the outboard face
  std::int64_t runout_wanted = 0;
  std::int64_t diameter_done = 0;    ///< of a drum, in the place of thickness
  std::int64_t diameter_wanted = 0;  ///< points times depths of the plan

  friend bool operator==(const Progress&, const Progress&) = default;
};

/// Whether readings of this stage are taken on the car.
bool is_on_car(Stage stage);

/// The plan of a part at a stage. While none is made: after the cut the one from before it; on the car the one from
/// before the cut, on its first circle; once refitted the one of the car as it came.
std::optional<MeasuringPlan> plan_of(const JobFile& file, const Uuid& part_id, Stage stage);

Progress progress_of(const JobFile& file, const Uuid& part_id, Stage stage);

/// How far a tool's point travels along one face in one pass, metres: the ring's area over the feed, or the band's in a
/// drum. 0 while its sizes are not known.
double cut_length_m(const Part& part, double feed_mm_per_rev);

/// What the shop can help with at the lathe, beside a job's own records.
struct BenchReady {
  bool stacks = false;  ///< the job's lathe has its arbor on record, and something hangs on the pegboard
  bool passes = false;  ///< the job's lathe has speeds and feeds on record

  friend bool operator==(const BenchReady&, const BenchReady&) = default;
};

/// @param lathe  the job's; null when it has none
BenchReady ready_with(const Lathe* lathe, bool pegboard_is_empty);

/// The last proof of a part since it was last mounted: how it runs now. Null when there is none.
const MountProof* proof_in_force(const JobFile& file, const Uuid& part_id);

/// How a part went back on its hub since it was last cut; null while it did not.
const Refit* refit_in_force(const JobFile& file, const Uuid& part_id);

/// What a job needs next, in this order: a limit to hold each part against (discard or machine-to), a finding for each
/// part ("nothing found" is one), thickness or diameter at every spot, a decision, the cut of each part where a cut was
/// decided, washing and the white cloth of each part that was cut in guided passes, the readings after it, how each
/// part that was read on the car went back on it, the seal. A part that a finding rejects needs no more limits or
/// readings. The cut of a part needs, where the bench is ready for them, a mount whose proof goes on, and passes
/// settled on. An arbor holds one part at a time: the part that is furthest on is seen through to its cut before the
/// other one. Computed from what is there, without drawing anything: cheap enough for each line of the board.
WaitsFor waits_for(const JobFile& file, const BenchReady& bench = {});

}  // namespace brakewright::shop
