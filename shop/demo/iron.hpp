#pragma once

#include "shop/demo/school.hpp"

namespace brakewright::shop::demo {

/// Hangs the invented pegboard of two arbor sizes, in inch and millimetre, and enters cutting edges and damping bands.
/// One piece is missing from its hook.
void enter_iron(Shop& shop, Clock& clock, const School& school);

}  // namespace brakewright::shop::demo
