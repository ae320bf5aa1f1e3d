#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/practice/exercise.hpp"
#include "shop/practice/store.hpp"
#include "shop/shop.hpp"

/// What shop/practice/*.cpp share.
namespace brakewright::shop {

/// @throws InputError "unknown_fault" naming "faults[k]"
practice::Exercise exercise_of(std::int64_t seed, std::int64_t difficulty,
                               const std::optional<std::vector<std::string>>& faults);

/// The mark of a run that has ended, "{}" without one.
std::string kept_mark(PracticeStore& store, Shop& shop, const Uuid& run_id);

}  // namespace brakewright::shop
