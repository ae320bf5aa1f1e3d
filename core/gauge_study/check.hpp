#pragma once

#include "core/gauge_study/gauge_study.hpp"

namespace brakewright::gauge_study {

/// @throws InputError as study_gauge, but for balance
void check(const Input& input);

}  // namespace brakewright::gauge_study
