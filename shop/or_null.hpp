#pragma once

#include <nlohmann/json.hpp>
#include <optional>

#include "shop/json.hpp"

namespace brakewright::shop {

/// A plain value as JSON has it, null where it is absent.
template <class T>
Json or_null(const std::optional<T>& value) {
  return value ? Json(*value) : Json(nullptr);
}

}  // namespace brakewright::shop
