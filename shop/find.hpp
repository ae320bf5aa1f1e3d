#pragma once

#include <algorithm>
#include <vector>

#include "shop/uuid.hpp"

namespace brakewright::shop {

/// The one with this id, or null. The pointer is into `all`.
template <class E>
const E* find(const std::vector<E>& all, const Uuid& id) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const E& one) { return one.id == id; });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace brakewright::shop
