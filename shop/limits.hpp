#pragma once

#include <optional>
#include <string>

#include "shop/entities.hpp"

namespace brakewright::shop {

/// Refuses limits that no rotor has, mostly a slipped unit: thicknesses outside 1 to 100 mm, variation and runout
/// outside 0 to 5 mm, scoring outside 0 to 10 mm, Ra outside 0 to 100 um; and a machine-to under discard or either over
/// nominal, mostly two figures that changed places.
/// The ranges are common practice, no source.
/// @param path  of the limits in the giver's input
/// @throws InputError "out_of_range" or "limits_disagree"
void check_limits(const Limits& limits, const std::string& path);

/// @throws InputError "out_of_range" outside 100 to 600 mm
void check_outer_diameter(const std::optional<TypedLength>& diameter, const std::string& path);

/// Reads a typed length and puts the field's path before a refusal.
TypedLength typed_in_field(const std::string& text, Unit default_unit, const std::string& field);

}  // namespace brakewright::shop
