#include "shop/journal/signing.hpp"

#include <sodium.h>

#include "core/input_error.hpp"
#include "shop/journal/chain.hpp"

namespace brakewright::shop {
namespace {

const unsigned char* bytes_of(std::string_view text) { return reinterpret_cast<const unsigned char*>(text.data()); }

/// Lower-case digits only, so that a signature is written in one way.
template <std::size_t N>
bool read_hex(std::string_view hex, std::array<std::uint8_t, N>& bytes) {
  std::size_t count = 0;
  if (hex.size() != 2 * N || hex.find_first_not_of("0123456789abcdef") != std::string_view::npos) return false;
  return sodium_hex2bin(bytes.data(), N, hex.data(), hex.size(), nullptr, &count, nullptr) == 0 && count == N;
}

SigningKey key_of(const std::array<std::uint8_t, 32>& seed) {
  SigningKey key{.seed = seed};
  std::array<std::uint8_t, crypto_sign_PUBLICKEYBYTES> public_key{};
  crypto_sign_seed_keypair(public_key.data(), key.secret.data(), seed.data());
  key.public_key = hex_of(public_key);
  return key;
}

}  // namespace

SigningKey key_of_seed(std::string_view seed_hex) {
  std::array<std::uint8_t, 32> seed{};
  if (!read_hex(seed_hex, seed)) throw InputError("not_a_key", "", "a key is 64 hex digits");
  return key_of(seed);
}

SigningKey fresh_key() {
  std::array<std::uint8_t, 32> seed{};
  randombytes_buf(seed.data(), seed.size());
  return key_of(seed);
}

std::string signature_of(const SigningKey& key, std::string_view text) {
  std::array<std::uint8_t, crypto_sign_BYTES> signature{};
  crypto_sign_detached(signature.data(), nullptr, bytes_of(text), text.size(), key.secret.data());
  return hex_of(signature);
}

bool signature_holds(std::string_view public_key, std::string_view text, std::string_view signature) {
  std::array<std::uint8_t, crypto_sign_PUBLICKEYBYTES> key{};
  std::array<std::uint8_t, crypto_sign_BYTES> made{};
  if (!read_hex(public_key, key) || !read_hex(signature, made)) return false;
  return crypto_sign_verify_detached(made.data(), bytes_of(text), text.size(), key.data()) == 0;
}

}  // namespace brakewright::shop
