#pragma once

#include <string>
#include <string_view>

#include "shop/uuid.hpp"

namespace brakewright::shop {

/// 32 bytes that nobody can guess, as 64 hex digits in lower case.
std::string new_token(const RandomBytes& random);

bool looks_like_token(std::string_view text);

}  // namespace brakewright::shop
