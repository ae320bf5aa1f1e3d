#pragma once

#include <cstdint>

#include "shop/school/school.hpp"
#include "shop/shop.hpp"

namespace brakewright::shop {

/// Puts an invented class into the shop that make_demo made: a closed study of reference parts and one that is being
/// read, permits of several states, what people showed, and a queue. The same seed and time give the same class.
/// @throws RuleError "not_empty" when the school has a class already
void make_demo_school(Store& store, SchoolStore& school_store, std::uint64_t seed, UtcTime now);

}  // namespace brakewright::shop
