#pragma once

#include <cstdint>

#include "shop/practice/book.hpp"
#include "shop/practice/store.hpp"
#include "shop/store.hpp"

namespace brakewright::shop {

/// Sets the class of a demo shop an exercise at the simulated bench, and lets some of its students end runs there. Each
/// is really simulated. The same seed and time give the same.
/// @param book  holds nothing of it afterwards
void make_demo_practice(Store& store, PracticeStore& practice_store, PracticeBook& book, std::uint64_t seed,
                        UtcTime now);

}  // namespace brakewright::shop
