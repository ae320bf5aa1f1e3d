#pragma once

#include "calc/calc.hpp"

namespace brakewright {
struct CircleFit;
struct PositionTrace;
}  // namespace brakewright

/// The methods behind the names of `calc`: each reads its input strictly and answers as api/openapi.yaml describes.
namespace brakewright::calc {

class Reader;

Json run_after_cut(const Json& input);
Json run_anova(const Json& input);
Json run_budget(const Json& input);
Json run_circle(const Json& input);
Json run_cleanup(const Json& input);
Json run_conformity(const Json& input);
Json run_cutplan(const Json& input);
Json run_diagnose(const Json& input);
Json run_dialcheck(const Json& input);
Json run_dialstudy(const Json& input);
Json run_disc_modes(const Json& input);
Json run_drum(const Json& input);
Json run_finish(const Json& input);
Json run_force(const Json& input);
Json run_foresee(const Json& input);
Json run_gauge_plan(const Json& input);
Json run_gauge_study(const Json& input);
Json run_heat(const Json& input);
Json run_index(const Json& input);
Json run_length(const Json& input);
Json run_lobes(const Json& input);
Json run_mount(const Json& input);
Json run_outlook(const Json& input);
Json run_pulsation(const Json& input);
Json run_roughness(const Json& input);
Json run_runout(const Json& input);
Json run_scratch(const Json& input);
Json run_separate(const Json& input);
Json run_stability(const Json& input);
Json run_thickness(const Json& input);
Json run_twin_limit(const Json& input);
Json run_verdict(const Json& input);

/// {"turn_deg", "angles_deg", "values_um"}
PositionTrace read_position(Reader& reader);

/// A fit as CalcCircleOutput, for answers that contain one.
Json json_of(const CircleFit& fit);

}  // namespace brakewright::calc
