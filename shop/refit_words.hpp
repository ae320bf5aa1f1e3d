#pragma once

#include <vector>

#include "shop/car_traces.hpp"
#include "shop/refit_advice.hpp"

/// What is said beside the figures of a refit; a piece of shop/refit_advice.hpp.
namespace brakewright::shop {

/// What to know of the readings that count, cautions first. `known` is complete but for advice and what is worked out.
std::vector<Advice> cautions_on(const JobFile& file, const Part& part, const CarTraces& traces,
                                const RefitAdvice& known);

/// What to measure next, the cheapest that would settle it first. `known` is complete but for it.
std::vector<Advice> next_readings(const Part& part, const CarTraces& traces, const RefitAdvice& known);

}  // namespace brakewright::shop
