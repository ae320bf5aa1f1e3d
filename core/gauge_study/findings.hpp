#pragma once

#include "core/gauge_study/gauge_study.hpp"

namespace brakewright::gauge_study {

/// What chance brings about less often than this stands out.
inline constexpr double kLevel = 0.05;

/// What stands out in a study whose figures and groups are there; the whole first, then operators, then instruments.
std::vector<Finding> findings_of(const Study& study);

}  // namespace brakewright::gauge_study
