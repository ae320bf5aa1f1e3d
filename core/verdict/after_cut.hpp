#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/verdict/verdict.hpp"

namespace brakewright {

struct AfterCutInput {
  std::vector<ThicknessPoint> before;  ///< at the same angles (and radii) as `after`, in any order
  std::vector<ThicknessPoint> after;
  Micrometer micrometer_before;
  Micrometer micrometer_after;
  double temperature_before_c = 20;
  double temperature_after_c = 20;
  std::optional<double> outboard_marks;  ///< what the dials took, of each side
  std::optional<double> inboard_marks;
  double dial_um_per_mark = 25.4;
  std::optional<double> dial_inboard_um_per_mark = {};  ///< of the inboard dial; as the outboard's when left out
  double dial_repeatability_um = 2.5;
  std::optional<double> planned_final_mm;  ///< what the plan said would be left (`Cleanup::final_whole_marks_mm`)
  std::optional<double> ra_um;             ///< typed from a roughness tester
  double u_ra_relative = 0.1;              ///< its relative standard uncertainty
  PartLimits limits;                       ///< machine_to, variation and finish are asked of the part after the cut
  double confidence = 0.95;
  std::uint64_t seed = 1;
  std::size_t draws = 20000;
};

struct RemovedAtPoint {
  double angle_deg = 0;
  double radius_mm = 0;
  double before_mm = 0;
  double after_mm = 0;
  double removed_um = 0;  ///< both sides together
};

enum class Outcome { pass, fail, cannot_tell };

/// "pass", "fail", "cannot tell".
const char* name_of(Outcome outcome);

/// One question asked of the part after the cut.
struct AfterCheck {
  std::string code;  ///< "machine_to", "discard", "variation", "finish"
  double value = 0;  ///< mm; um for "finish"
  double limit = 0;
  double p = 0;  ///< that the part is within
  Outcome outcome = Outcome::cannot_tell;
  std::string text;
  std::string source;
};

struct AfterCut {
  Outcome outcome = Outcome::cannot_tell;  ///< fail when any check fails, pass when all pass
  std::vector<RemovedAtPoint> removed;
  double removed_mean_um = 0;
  double removed_min_um = 0;
  double removed_max_um = 0;
  double u_removed_mean_um = 0;
  std::optional<double> planned_um;  ///< what the dials took, both sides together
  /// Missing thickness: planned_final_mm less the mean after, where that was given; else removed mean less what the
  /// dials took (usually negative: the dials count from first touch).
  std::optional<double> difference_um;
  /// Within twice its uncertainty of planned_final_mm; without one, no more gone than the dials took.
  std::optional<bool> agrees_with_plan;
  Thickness thickness;  ///< of the part after the cut
  std::vector<AfterCheck> checks;
  std::vector<Advice> advice;  ///< thicker after than before, one side cut only, ...
};

/// What the cut took and whether the part is now within its limits.
///
/// @throws InputError naming the field; "sizes_differ" at `after` when its spots are not those of `before`
/// Without any check to make the outcome is `cannot_tell`.
/// Source: methods 3 and 7; JCGM 106 for the finish. The dials count from first touch, so that the mean removed is less
/// than they took by the wobble and waves that were cut away.
AfterCut check_after_cut(const AfterCutInput& input);

}  // namespace brakewright
