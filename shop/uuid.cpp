#include "shop/uuid.hpp"

#include <stdexcept>

#include "core/input_error.hpp"

namespace brakewright::shop {
namespace {

constexpr std::string_view kHex = "0123456789abcdef";

bool is_hyphen_place(std::size_t place) { return place == 8 || place == 13 || place == 18 || place == 23; }

int hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

[[noreturn]] void refuse() {
  throw InputError("not_an_id", "", "an id is needed here: 8-4-4-4-12 hexadecimal digits joined by hyphens");
}

}  // namespace

std::string to_text(const Uuid& id) {
  std::string text;
  text.reserve(36);
  for (const std::uint8_t byte : id.bytes) {
    if (is_hyphen_place(text.size())) text += '-';
    text += kHex[byte >> 4];
    text += kHex[byte & 15];
  }
  return text;
}

Uuid parse_uuid(std::string_view text) {
  if (text.size() != 36) refuse();
  Uuid id;
  std::size_t digits = 0;
  for (std::size_t place = 0; place < text.size(); ++place) {
    if (is_hyphen_place(place)) {
      if (text[place] != '-') refuse();
      continue;
    }
    const int digit = hex_digit(text[place]);
    if (digit < 0) refuse();
    auto& byte = id.bytes[digits / 2];
    byte = static_cast<std::uint8_t>(byte * 16 + digit);
    ++digits;
  }
  return id;
}

Uuid make_uuid7(std::int64_t unix_ms, const RandomBytes& random) {
  if (unix_ms < 0 || unix_ms >= (std::int64_t{1} << 48)) throw std::invalid_argument("time outside that of a UUID");
  Uuid id;
  random(id.bytes);
  for (std::size_t k = 0; k < 6; ++k) id.bytes[k] = static_cast<std::uint8_t>((unix_ms >> (40 - 8 * k)) & 0xff);
  id.bytes[6] = static_cast<std::uint8_t>((id.bytes[6] & 0x0f) | 0x70);
  id.bytes[8] = static_cast<std::uint8_t>((id.bytes[8] & 0x3f) | 0x80);
  return id;
}

std::uint64_t seed_of(const Uuid& id, std::uint64_t seed) {
  for (const auto byte : id.bytes) seed = seed * 257 + byte;
  return seed;
}

}  // namespace brakewright::shop
