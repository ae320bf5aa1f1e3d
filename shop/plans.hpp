#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "shop/assess.hpp"
#include "shop/entities.hpp"
#include "shop/study.hpp"

/// From a part's records, a lathe and an insert to passes: where records become input of core/cutting.
namespace brakewright::shop {

/// The rule of core/cutting that leaves no plan.
struct PlanRefusal {
  std::string code = {};
  std::string field = {};
  std::string message = {};
};

/// A rule of the shop, the lathe or the insert that these passes break.
struct PlanWarning {
  std::string code = {};
  std::string text = {};
  std::int64_t pass = 1;  ///< which, from 1
  std::string side = {};  ///< "outboard", "inboard"; empty where it is the pass as a whole
};

/// Passes with what they will do. Passes that are on record as finished have been taken off already; a stopped one is
/// done again and counts for nothing.
struct PlanAdvice {
  std::vector<std::string> missing = {};    ///< "outer_diameter", "seat.ring_inner", of a drum "band_width"; "lathe",
                                            ///< "lathe.speeds_rpm", "lathe.feeds_mm_per_rev", "insert", "verdict"
  std::optional<PlanRefusal> refusal = {};  ///< when there is no plan
  std::optional<double> needed_outboard_um =
      {};  ///< least depth that is left to take; absent while something is missing
  std::optional<double> needed_inboard_um = {};
  std::optional<double> start_min_mm = {};  ///< thinnest point as it was read; absent of a drum
  std::optional<double> start_max_mm = {};  ///< of a drum: largest diameter as it was read
  std::optional<double> u_start_min_um = {};
  /// Thickness between the highest spots of both faces as mounted, less what was taken: where the dials begin to count.
  /// Of a drum the diameter there.
  std::optional<double> touch_mm = {};
  std::optional<double> machine_to_mm = {};  ///< the limit in force
  std::vector<ForeseenPass> passes = {};
  double time_s = 0;
  std::optional<double> final_mm = {};  ///< thinnest point, or largest diameter, after them
  std::optional<double> pair_mm = {};  ///< of a drum: the size that both of the axle are turned to, where that is asked
  std::vector<PlanWarning> warnings = {};
  std::string basis = {};  ///< a sentence, where the lathe's figures are more than what was typed; else empty
};

/// What a plan is made of. The references must outlive the call.
struct PlanContext {
  const JobFile& file;
  const Part& part;
  const Assessment& assessment;
  const Settings& settings;
  const Lathe* lathe = nullptr;    ///< null when the job has none yet
  const Insert* insert = nullptr;  ///< null when the shop has none
  BenchFigures bench = {};
};

/// Marks of both dials.
struct Marks {
  std::int64_t outboard = 0;
  std::int64_t inboard = 0;
};

/// What the dials have taken off a part already: finished passes, or the cut that sums them up.
Marks taken_from(const JobFile& file, const Uuid& part_id);

/// The soonest passes within the rules. The need of each face is that of the verdict's least cut in the mount as it is
/// proven, in the verdict's whole marks; thickness counts from first touch, as there.
/// A drum goes by the depths of drum work where those are less: rough up to 150 um, the last pass 25 to 40 um on the
/// radius (common practice, no source).
/// @param one_size  of a drum with a partner: to the size of the one that needs more, to the nearest mark, unless this
///                  drum may not be turned so far
PlanAdvice plan_passes(const PlanContext& context, bool one_size = true);

/// What passes that somebody chose will do.
PlanAdvice foresee_passes(const PlanContext& context, const std::vector<PlannedPass>& passes);

/// The settings of foreseen passes.
std::vector<PlannedPass> settings_of(const std::vector<ForeseenPass>& passes);

}  // namespace brakewright::shop
