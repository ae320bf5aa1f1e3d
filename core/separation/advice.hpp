#pragma once

#include "core/separation/separation.hpp"

namespace brakewright::separation {

/// What a person should know of this separation, or do next. `found` is complete but for its advice.
std::vector<Advice> advise(const SeparationInput& input, const Separation& found);

/// A further turn of the part that brings apart what is not yet: the one with the least worst gain over the orders up
/// to six. In steps of the studs, or of 15 degrees. Absent where everything is told apart well.
std::optional<double> next_turn_deg(const SeparationInput& input, const Separation& found);

/// Raise of the noise for positions at these turns: 1 where spread evenly, infinite where order k looks alike in all.
double gain_of(const std::vector<double>& turns_deg, int order);

inline constexpr double kWeakGain = 3;         ///< from here a person is warned
inline constexpr double kHopelessGain = 1000;  ///< from here the order counts as not separable

}  // namespace brakewright::separation
