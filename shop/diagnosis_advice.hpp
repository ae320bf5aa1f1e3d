#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/diagnosis/diagnose.hpp"
#include "shop/assess.hpp"

/// What probably spoilt a part that was cut: where a job's records become signs of core/diagnosis.
namespace brakewright::shop {

/// A sign as the job has it.
struct JobSign {
  diagnosis::Sign sign = diagnosis::Sign::variation;
  double value = 0;
  std::string from = {};  ///< which records tell it, in words
};

struct PartDiagnosis {
  Uuid part_id = {};
  Side side = Side::left;
  std::vector<std::string> missing = {};           ///< "cut", "readings_after"; "disc" where it is a drum
  std::vector<JobSign> signs = {};                 ///< in the order of the signs
  std::optional<diagnosis::Diagnosis> found = {};  ///< absent while something is missing
};

struct DiagnosisAdvice {
  Uuid job_id = {};
  std::vector<PartDiagnosis> parts = {};  ///< in the order of the file's parts
};

/// The shop's cutting edges, for the nose that made a finish.
struct CuttingEdges {
  std::vector<Insert> inserts = {};
  std::vector<Corner> corners = {};
};

/// @param assessment  of the same file
/// Thickness counts where a micrometer of 0.002 mm or finer read it. What its zero check showed was taken off every
/// reading: a micrometer with a zero check is one without an error. Signs that no record tells stay unknown. Pure.
DiagnosisAdvice advise_diagnosis(const JobFile& file, const Assessment& assessment, const CuttingEdges& edges,
                                 const AssessContext& context);

}  // namespace brakewright::shop
