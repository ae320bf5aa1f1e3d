#pragma once

#include "calc/calc.hpp"
#include "core/drum/bore_plan.hpp"
#include "core/drum/cut_check.hpp"
#include "core/drum/drum.hpp"
#include "core/input_error.hpp"

namespace brakewright::calc {

/// Diameters of one stage: CalcDrumFigures.
Json json_of(const drum::Figures& figures);

/// CalcDrumCut.
Json json_of(const drum::CutCheck& check);

/// Drums as JSON: CalcDrumOutput, its plans and cuts null.
Json json_of(const drum::Drums& drums);

/// CalcDrumPlan; `refusal` says why there are no passes, or is null.
Json json_of(const drum::BorePlan& plan, const InputError* refusal);

}  // namespace brakewright::calc
