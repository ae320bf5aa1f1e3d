#pragma once

#include <optional>
#include <string>

#include "shop/entities.hpp"

namespace brakewright::shop {

/// Refuses limits and sizes that no part of its kind has, mostly a slipped unit or another kind's figure.
///
/// A disc: thicknesses outside 1 to 100 mm, variation and runout outside 0 to 5 mm, an outer diameter outside 100 to
/// 600 mm. A drum: diameters outside 50 to 1500 mm, or more than 50 mm from each other; out-of-round and taper outside
/// 0 to 5 mm; a band outside 5 to 500 mm; a lining outside 20 to 750 mm or not near the drum's radius. Both: scoring
/// outside 0 to 10 mm, Ra outside 0 to 100 um. What is asked of the other kind alone is refused as well; so is a
/// machine-to beyond discard or either beyond nominal the wrong way, mostly two figures that changed places. The ranges
/// are common practice, no source.
/// @param path  of the part in the giver's input; may be empty
/// @throws InputError "out_of_range", "limits_disagree" or "other_kind"
void check_sizes(const Part& part, const std::string& path);
void check_sizes(const KnownPart& part, const std::string& path);

/// Reads a typed length and puts the field's path before a refusal.
TypedLength typed_in_field(const std::string& text, Unit default_unit, const std::string& field);

}  // namespace brakewright::shop
