#pragma once

#include <span>

#include "core/gauge_study/crossed.hpp"

namespace brakewright::gauge_study {

/// What the study as a whole knows, for those whose own readings do not tell; in the readings' unit.
struct StudyVariances {
  double repeatability = 0;
  std::optional<double> reproducibility = {};
};

/// The rows as a full table by one factor, where they make one.
struct Balanced {
  const Crossed* data = nullptr;
  Effect offsets = {};  ///< in the readings' unit: the interaction, or repeatability with one repeat
};

/// Each person's, or each instrument's, own figures, in the order of their first row.
/// @param input     checked
/// @param factor    whose
/// @param balanced  the same rows by the same factor; null where they make no full table: no offsets then
std::vector<Group> groups_of(const Input& input, Factor factor, const Balanced* balanced, const StudyVariances& study);

}  // namespace brakewright::gauge_study
