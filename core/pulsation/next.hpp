#pragma once

#include "core/pulsation/pulsation.hpp"

namespace brakewright::pulsation {

/// What to do next, most telling first. `found` is complete but for it.
std::vector<Advice> next_steps(const PulsationInput& input, const Pulsation& found);

}  // namespace brakewright::pulsation
