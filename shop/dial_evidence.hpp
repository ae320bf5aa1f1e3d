#pragma once

#include <optional>

#include "core/dials/dial_check.hpp"
#include "core/dials/lathe_study.hpp"
#include "shop/assess.hpp"

/// What a job's records say of the dials that were turned for it.
namespace brakewright::shop {

/// The cut of one part, as core/dials asks about it. Marks are those of its cuts on record, each dial with the value
/// that the cut carries; each finished pass is one setting.
/// Touch loss comes from the face as it stood on the arbor, where that is known with its angles: by a proof or a
/// reading there; else core/dials' own stands. A face's own loss comes from its readings from face to vent, at points
/// that were read before and after. Temperatures count as corrected where both stages name theirs, else as unknown.
/// @param check  what left the part, by its thickness
/// @return nothing while no cut is on record
std::optional<dials::DialCheckInput> dial_evidence(const JobFile& file, const Part& part, const AfterCut& check,
                                                   double dial_sd_um, const AssessContext& context);

/// The same as a finished job of its lathe: what the tools went below the highest spots.
dials::LatheJob lathe_job_of(const dials::DialCheckInput& evidence, double days);

}  // namespace brakewright::shop
