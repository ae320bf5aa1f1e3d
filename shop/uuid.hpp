#pragma once

#include <array>
#include <compare>
#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <string_view>

namespace brakewright::shop {

/// Universally unique identifier (RFC 9562). New ones are version 7: they sort by time of making, and shops can be
/// merged without renumbering.
struct Uuid {
  std::array<std::uint8_t, 16> bytes{};

  friend auto operator<=>(const Uuid&, const Uuid&) = default;
};

/// "0190a1b2-....", lower case, 36 characters.
std::string to_text(const Uuid& id);

/// @throws InputError "not_an_id" (field empty) unless `text` is 36 characters of 8-4-4-4-12 hex digits
Uuid parse_uuid(std::string_view text);

/// A number of its own for each id, to begin random draws with; `seed` is that of what it belongs to.
std::uint64_t seed_of(const Uuid& id, std::uint64_t seed = 0);

/// Fills a span with bytes that nobody can guess, or, in tests, that a seed makes.
using RandomBytes = std::function<void(std::span<std::uint8_t>)>;

/// A new version 7 id. @param unix_ms  milliseconds since 1970, at least 0 and under 2^48
Uuid make_uuid7(std::int64_t unix_ms, const RandomBytes& random);

}  // namespace brakewright::shop
