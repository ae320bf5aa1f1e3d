#include "shop/doors/secret.hpp"

#include <sodium.h>

#include <algorithm>
#include <array>
#include <stdexcept>

#include "core/input_error.hpp"
#include "shop/texts.hpp"

namespace brakewright::shop {
namespace {

constexpr std::size_t kShortestPin = 4;
constexpr std::size_t kLongestPin = 8;
constexpr std::size_t kShortestPassword = 8;
constexpr std::size_t kLongestPassword = 200;
constexpr std::size_t kHashBytes = 32;

std::size_t characters(const std::string& text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

template <std::size_t N>
std::string base64(const std::array<unsigned char, N>& bytes) {
  std::array<char, sodium_base64_ENCODED_LEN(N, sodium_base64_VARIANT_ORIGINAL_NO_PADDING)> text{};
  return sodium_bin2base64(text.data(), text.size(), bytes.data(), bytes.size(),
                           sodium_base64_VARIANT_ORIGINAL_NO_PADDING);
}

}  // namespace

std::string_view word_of_secret(SecretKind kind) { return kind == SecretKind::pin ? "pin" : "password"; }

SecretKind comes_in_with(Role role) { return leads(role) ? SecretKind::password : SecretKind::pin; }

void check_secret(SecretKind kind, const std::string& text, const std::string& field) {
  if (kind == SecretKind::pin) {
    const bool digits = std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
    if (!digits || text.size() < kShortestPin || text.size() > kLongestPin) {
      throw InputError("too_weak", field, "a PIN is 4 to 8 digits");
    }
    return;
  }
  try {
    check_text(text, {});
  } catch (const InputError& error) {
    throw error.within(field);
  }
  const std::size_t count = characters(text);
  if (count < kShortestPassword) throw InputError("too_weak", field, "a password has 8 characters or more");
  if (count > kLongestPassword) throw InputError("too_long", field, "a password has at most 200 characters");
}

std::string hash_of(std::string_view secret, const HashCost& cost, const RandomBytes& random) {
  if (sodium_init() < 0) throw std::runtime_error("no source of random numbers");
  std::array<unsigned char, crypto_pwhash_SALTBYTES> salt{};
  random(salt);
  std::array<unsigned char, kHashBytes> hash{};
  if (crypto_pwhash(hash.data(), hash.size(), secret.data(), secret.size(), salt.data(), cost.passes, cost.memory_bytes,
                    crypto_pwhash_ALG_ARGON2ID13) != 0) {
    throw std::runtime_error("no memory to hash a secret");
  }
  return "$argon2id$v=19$m=" + std::to_string(cost.memory_bytes >> 10U) + ",t=" + std::to_string(cost.passes) +
         ",p=1$" + base64(salt) + "$" + base64(hash);
}

bool hash_holds(const std::string& hash, std::string_view secret) {
  return crypto_pwhash_str_verify(hash.c_str(), secret.data(), secret.size()) == 0;
}

}  // namespace brakewright::shop
