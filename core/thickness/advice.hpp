#pragma once

#include "core/thickness/reduced.hpp"

namespace brakewright {

/// What a person should know or do about these readings. `thickness` is complete but for its advice.
/// @param p_if_flat  probability within the limit that equal readings of this instrument at these spots would give;
///                   absent when it was not asked
std::vector<Advice> advise(const ThicknessInput& input, const Reduced& reduced, const Thickness& thickness,
                           std::optional<double> p_if_flat);

}  // namespace brakewright
