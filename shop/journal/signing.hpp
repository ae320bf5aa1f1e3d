#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

/// Signatures under the journal's head: Ed25519 (RFC 8032).
namespace brakewright::shop {

struct SigningKey {
  std::array<std::uint8_t, 32> seed = {};
  std::array<std::uint8_t, 64> secret = {};
  std::string public_key = {};  ///< 64 hex digits
};

/// The key of a seed of 64 hex digits. @throws InputError "not_a_key" (field empty)
SigningKey key_of_seed(std::string_view seed_hex);

/// A key that nobody can guess.
SigningKey fresh_key();

/// 128 hex digits.
std::string signature_of(const SigningKey& key, std::string_view text);

/// Whether a signature was made over `text` with the key of `public_key`; false for anything that is no signature.
bool signature_holds(std::string_view public_key, std::string_view text, std::string_view signature);

}  // namespace brakewright::shop
