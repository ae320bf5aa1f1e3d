#pragma once

#include <optional>
#include <vector>

#include "core/drum/cut_check.hpp"
#include "core/runout/runout.hpp"
#include "core/thickness/thickness.hpp"
#include "core/verdict/after_cut.hpp"
#include "core/verdict/verdict.hpp"
#include "report/content/spots.hpp"
#include "report/record.hpp"

/// One rotor with its readings and what was computed from them, side by side.
namespace brakewright::report {

struct AssessedStage {
  Spots spots;
  std::optional<Thickness> thickness = {};
  std::optional<drum::Figures> drum = {};  ///< of a drum, in the place of thickness
  std::optional<double> runout_outboard_um = {};
  std::optional<double> runout_inboard_um = {};
};

struct AssessedRotor {
  const shop::Part* part = nullptr;
  AssessedStage before = {};
  AssessedStage after = {};
  std::optional<AfterCut> check = {};
  std::optional<PartVerdict> verdict = {};
  std::optional<drum::CutCheck> drum_check = {};  ///< these of a drum, in the place of both
  std::optional<drum::DrumVerdict> drum_verdict = {};
  std::vector<shop::Cut> cuts = {};  ///< of this part
};

/// The parts of the job, left before right.
std::vector<AssessedRotor> assessed_rotors(const RecordInput& input);

/// The verdict on the job as a whole, where there is one, and what is still missing for it.
struct AssessedJob {
  std::optional<Verdict> verdict = {};
  std::vector<std::string> missing = {};
};
AssessedJob assessed_job(const RecordInput& input);

}  // namespace brakewright::report
