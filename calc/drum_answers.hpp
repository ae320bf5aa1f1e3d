#pragma once

#include "calc/calc.hpp"
#include "core/drum/bore_plan.hpp"
#include "core/drum/drum.hpp"
#include "core/input_error.hpp"

namespace brakewright::calc {

/// Drums as JSON: CalcDrumOutput without its plans.
Json json_of(const drum::Drums& drums);

/// CalcDrumPlan; `refusal` says why there are no passes, or is null.
Json json_of(const drum::BorePlan& plan, const InputError* refusal);

}  // namespace brakewright::calc
