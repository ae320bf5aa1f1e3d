#pragma once

#include <vector>

#include "shop/school/entities.hpp"

/// Lists to begin with, in generic words, for the teacher to change. Their ids are fixed, so that entering them twice
/// enters them once. Common practice, no source, unless an entry names one.
namespace brakewright::shop {

std::vector<SafetyPoint> starter_safety_points();
std::vector<Competence> starter_competences();

}  // namespace brakewright::shop
