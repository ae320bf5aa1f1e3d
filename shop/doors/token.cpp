#include "shop/doors/token.hpp"

#include <algorithm>
#include <array>

#include "shop/journal/chain.hpp"

namespace brakewright::shop {
namespace {

constexpr std::size_t kTokenBytes = 32;
constexpr std::string_view kHexDigits = "0123456789abcdef";

}  // namespace

std::string new_token(const RandomBytes& random) {
  std::array<std::uint8_t, kTokenBytes> bytes{};
  random(bytes);
  return hex_of(bytes);
}

bool looks_like_token(std::string_view text) {
  return text.size() == 2 * kTokenBytes && text.find_first_not_of(kHexDigits) == std::string_view::npos;
}

}  // namespace brakewright::shop
