#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/dials/lathe_study.hpp"
#include "shop/entities.hpp"

/// What is known of a lathe beyond what was typed: from the jobs that were cut on it.
namespace brakewright::shop {

/// How a lathe does, for verdicts, plans and checks.
struct BenchFigures {
  double dial_um_per_mark = 25.4;  ///< outboard
  double dial_inboard_um_per_mark = 25.4;
  double dial_sd_um = 5;     ///< of one setting of one dial
  double mount_rms_um = 12;  ///< root mean square of the runout, peak to valley, that a mounting adds
  std::string basis = {};    ///< a sentence, where they are more than what was typed; else empty
};

/// As typed. A wobble of random size and direction has a Rayleigh amplitude; peak to valley of 2.5 root mean squares is
/// its usual size.
BenchFigures typed_figures(const Lathe& lathe);

/// One part of a sealed job that was cut, and measured after.
struct FinishedCut {
  Uuid job_id = {};
  std::int64_t job_number = 0;
  Uuid part_id = {};
  Uuid lathe_id = {};
  UtcTime sealed_at = {};
  dials::LatheJob cut = {};
  std::optional<double> mount_runout_um = {};  ///< the mount's own share, where a proof told it from the part's
};

/// By job; a job without such a part has an empty list.
using FinishedCuts = std::map<Uuid, std::vector<FinishedCut>>;

/// Of one lathe, sealed before that moment, oldest first.
std::vector<FinishedCut> cuts_on(const FinishedCuts& all, const Uuid& lathe_id, UtcTime before);

/// So many jobs are wanted before a lathe's cuts say anything.
inline constexpr std::size_t kJobsForAStudy = 5;

/// How well parts were mounted, by the proofs that told the mount's share from the part's.
struct MountRecord {
  std::size_t jobs = 0;
  double rms_um = 0;  ///< peak to valley
};

/// What the finished jobs of a lathe say.
struct LatheRecord {
  Uuid lathe_id = {};
  std::size_t jobs = 0;
  std::size_t needs = 0;                        ///< further jobs before anything is said
  std::vector<FinishedCut> cuts = {};           ///< oldest first; `odd_job` of the study counts in them
  std::optional<dials::LatheStudy> study = {};  ///< with five jobs or more
  std::optional<MountRecord> mount = {};        ///< with five jobs or more that have such a proof
};

LatheRecord record_of(const Lathe& lathe, std::vector<FinishedCut> cuts);

/// What a lathe is taken to do: what was measured where the record says it, else what was typed.
/// @param drums  for a job of drums, which the outboard tool alone turns: its words leave the other one out
BenchFigures figures_from(const Lathe& lathe, const LatheRecord& record, bool drums);

}  // namespace brakewright::shop
