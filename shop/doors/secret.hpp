#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "shop/entities.hpp"
#include "shop/uuid.hpp"

/// What people come in with. A hash is kept, never the secret, and neither leaves the program.
namespace brakewright::shop {

enum class SecretKind { pin, password };

struct Secret {
  Uuid person_id = {};
  SecretKind kind = SecretKind::pin;
  std::string hash = {};  ///< by hash_of(); empty once it was taken away
  UtcTime set_at = {};
  Uuid by_person_id = {};

  friend bool operator==(const Secret&, const Secret&) = default;
};

/// Where secrets are kept. As of a shop::Store: one thread at a time, and written only within its transact().
class SecretStore {
 public:
  virtual ~SecretStore() = default;
  virtual void put(const Secret&) = 0;  ///< inserts, or replaces the one of that person and kind
  virtual std::vector<Secret> secrets() = 0;
};

/// "pin", "password".
std::string_view word_of_secret(SecretKind kind);

/// Teachers and lead hands come in with a password, everybody else with a PIN.
SecretKind comes_in_with(Role role);

/// A PIN is 4 to 8 digits, a password 8 to 200 characters.
/// @throws InputError "too_weak" or "too_long" at `field`, with what is accepted; "not_utf8", "control_character"
void check_secret(SecretKind kind, const std::string& text, const std::string& field);

/// What a guess costs.
struct HashCost {
  std::uint64_t passes = 2;
  std::size_t memory_bytes = 0;
};

/// As many people sign in at a time as there are tablets, on a small machine: a PIN is guarded by the wait at the door
/// (shop/doors/patience.hpp) rather than by the cost of a guess, which four digits could not carry.
struct HashCosts {
  HashCost pin{.passes = 2, .memory_bytes = 8UL << 20U};
  HashCost password{.passes = 2, .memory_bytes = 64UL << 20U};

  const HashCost& of(SecretKind kind) const { return kind == SecretKind::pin ? pin : password; }
};

/// Argon2id (RFC 9106) in the usual text form "$argon2id$v=19$m=...,t=...,p=1$salt$hash", salt of 16 bytes.
/// @throws std::runtime_error  when the memory cannot be had
std::string hash_of(std::string_view secret, const HashCost& cost, const RandomBytes& random);

/// Whether `hash` was made of this secret; takes as long whether it was or not.
bool hash_holds(const std::string& hash, std::string_view secret);

}  // namespace brakewright::shop
