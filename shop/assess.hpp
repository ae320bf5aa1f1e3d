#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/circle/circle.hpp"
#include "core/dials/dial_check.hpp"
#include "core/drum/cut_check.hpp"
#include "core/thickness/thickness.hpp"
#include "core/verdict/after_cut.hpp"
#include "core/verdict/verdict.hpp"
#include "shop/entities.hpp"
#include "shop/hands.hpp"
#include "shop/progress.hpp"
#include "shop/study.hpp"

/// From a job's readings to what they mean: the one place where records become input of the core.
namespace brakewright::shop {

/// What the readings of one part at one stage mean; each is absent until three angles have a current reading.
struct MapAssessment {
  std::optional<Thickness> thickness = {};
  std::optional<drum::Figures> diameter = {};  ///< of a drum, in the place of thickness; needs three angles at a depth
  std::optional<CircleFit> runout_outboard = {};  ///< of a drum: of its inside, on the lathe
  std::optional<CircleFit> runout_inboard = {};
};

struct PartAssessment {
  Uuid part_id = {};
  Progress progress_before = {};
  Progress progress_after = {};
  MapAssessment before = {};
  MapAssessment after = {};
  std::optional<AfterCut> check = {};               ///< the cut against the plan and the limits
  std::optional<dials::DialCheck> dial_check = {};  ///< the dials against the metal; absent until a cut is on record
  /// In the place of both for a drum: one tool cut it, so that what it left is told by the diameter alone.
  std::optional<drum::CutCheck> drum_check = {};
};

struct Assessment {
  Uuid job_id = {};
  std::int64_t seq = 0;  ///< last journal entry of the job that this includes
  WaitsFor waits_for = WaitsFor::nothing;
  std::vector<PartAssessment> parts = {};  ///< in the order of the file's parts
  /// Both parts together, `verdict->parts` in the order of `parts`; absent until each part has thickness readings at
  /// three angles or more.
  std::optional<Verdict> verdict = {};
  std::optional<drum::Drums> drums = {};   ///< the same of drums, in its place
  std::optional<BenchFigures> bench = {};  ///< how the job's lathe was taken to do
  std::vector<std::string> missing = {};   ///< what is still needed, or was assumed in its place, in words
};

/// What a job's file refers to. The references must outlive the call.
struct AssessContext {
  const Settings& settings;
  const std::vector<Instrument>& instruments;
  const std::vector<ZeroCheck>& zero_checks;
  const std::vector<Lathe>& lathes;
  BenchReady ready = {};
  std::optional<BenchFigures> bench = {};  ///< of the job's lathe, from the jobs before this one; else as typed
  Hands hands = {};                        ///< of those who read
};

/// The cut of a disc against what was read before and after it; nothing until three spots were read at both stages.
/// @param draws  for the figures that are drawn; what was removed does not depend on it
std::optional<AfterCut> check_of(const JobFile& file, std::size_t place, const AssessContext& context,
                                 std::size_t draws);

/// Only current readings count. Each is reduced by the error that its instrument showed at its zero check; readings of
/// one spot are repeats. An instrument that is not known is taken as good as the last typed place, and said so in
/// `missing`; a day's readings without a zero check of that day are said so in the thickness' advice.
/// The seed comes from the job's id: the same file gives the same answer everywhere, every time.
/// Figures that the core refuses, such as a thickness below zero that somebody confirmed, leave that answer absent and
/// are named in `missing`; nothing is thrown for them.
Assessment assess(const JobFile& file, const AssessContext& context);

}  // namespace brakewright::shop
