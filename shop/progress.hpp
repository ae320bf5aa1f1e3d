#pragma once

#include <cstdint>
#include <optional>

#include "shop/entities.hpp"

namespace brakewright::shop {

/// How many of the wanted spots of one part at one stage have a current reading.
struct Progress {
  std::int64_t thickness_done = 0;    ///< distinct spots
  std::int64_t thickness_wanted = 0;  ///< points times circles of the plan; 0 without a plan
  std::int64_t runout_done = 0;       ///< distinct points of the outboard face
  std::int64_t runout_wanted = 0;

  friend bool operator==(const Progress&, const Progress&) = default;
};

/// The plan of a part at a stage; after the cut, while none is made, the one from before it.
std::optional<MeasuringPlan> plan_of(const JobFile& file, const Uuid& part_id, Stage stage);

Progress progress_of(const JobFile& file, const Uuid& part_id, Stage stage);

/// How far a tool's point travels along one face in one pass, metres: the ring's area over the feed. 0 while the ring's
/// diameters are not known.
double cut_length_m(const Part& part, double feed_mm_per_rev);

/// What a job needs next, in this order: a limit to hold each part against (discard or machine-to), a finding for each
/// part ("nothing found" is one), thickness at every spot, a decision, the cut of each part where a cut was decided,
/// the readings after it, the seal. A part that a finding rejects needs no more limits or readings.
/// Computed from what is there, without drawing anything: cheap enough for each line of the board.
WaitsFor waits_for(const JobFile& file);

}  // namespace brakewright::shop
