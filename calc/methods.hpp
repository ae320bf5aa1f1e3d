#pragma once

#include "calc/calc.hpp"

namespace brakewright {
struct CircleFit;
}

/// The methods behind the names of `calc`: each reads its input strictly and answers as api/openapi.yaml describes.
namespace brakewright::calc {

Json run_after_cut(const Json& input);
Json run_anova(const Json& input);
Json run_budget(const Json& input);
Json run_circle(const Json& input);
Json run_cleanup(const Json& input);
Json run_conformity(const Json& input);
Json run_cutplan(const Json& input);
Json run_dialcheck(const Json& input);
Json run_dialstudy(const Json& input);
Json run_finish(const Json& input);
Json run_force(const Json& input);
Json run_foresee(const Json& input);
Json run_length(const Json& input);
Json run_mount(const Json& input);
Json run_runout(const Json& input);
Json run_scratch(const Json& input);
Json run_thickness(const Json& input);
Json run_verdict(const Json& input);

/// A fit as CalcCircleOutput, for answers that contain one.
Json json_of(const CircleFit& fit);

}  // namespace brakewright::calc
