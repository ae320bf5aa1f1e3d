#pragma once

#include <cstdint>
#include <functional>
#include <string>

#include "shop/doors/secret.hpp"
#include "shop/shop.hpp"

/// Invented data to look round in and to practise on. No person, school, vehicle or part in it exists; the figures come
/// from simulated rotors, instruments and cuts.
namespace brakewright::shop {

/// Fills an empty store with an invented school's shop: its people, instruments, lathes and known parts, about forty
/// sealed jobs of the two terms before `now`, and six open ones in different states. All of it goes through the shop's
/// own commands, so it obeys every rule; `settings.demo` is set.
/// @param seed          the same seed and `now` make the same shop
/// @param verdict_json  as in Surroundings
/// @throws RuleError "not_empty" when the store has anything in it; StoreError
void make_demo(Store& store, std::uint64_t seed, UtcTime now,
               std::function<std::string(const Assessment&)> verdict_json);

/// What everybody of a demo shop comes in with; it says so itself at its door.
inline constexpr const char* kDemoPassword = "practice lathe";
inline constexpr const char* kDemoPin = "2468";

/// Closes the doors of a demo shop: teachers and lead hands get kDemoPassword, everybody kDemoPin.
/// @param seed  of the salts
void close_demo_doors(Store& store, SecretStore& secrets, std::uint64_t seed, UtcTime now);

/// Opens one invented job to practise on: a pair of rotors with limits, looked over and measured before the cut, which
/// waits for a decision. Works in any shop with a person in it; uses its instruments and first lathe where it has them.
JobFile open_practice_job(Shop& shop, const Uuid& by, std::uint64_t seed, UtcTime now);

}  // namespace brakewright::shop
