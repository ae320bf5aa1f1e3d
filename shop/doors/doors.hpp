#pragma once

#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "shop/doors/secret.hpp"
#include "shop/shop.hpp"

namespace brakewright::shop {

/// The doors of a shop: open while nobody in it has a secret, closed from the first one on. Who comes in through closed
/// doors, and with what. Safe to call from several threads.
class Doors {
 public:
  /// Reads the secrets once; from then on nobody else may write them. Shop and store must outlive this.
  /// @param random  for salts
  Doors(Shop& shop, SecretStore& store, HashCosts costs, std::function<UtcTime()> now, RandomBytes random);

  bool closed() const;
  bool has(const Uuid& person_id, SecretKind kind) const;

  /// Whether this is the person's secret of that kind. Takes as long for a wrong one, for none and for nobody.
  bool holds(const Uuid& person_id, SecretKind kind, const std::string& secret) const;

  /// The first account: makes a teacher in a shop without people, or gives a teacher of a shop with open doors a
  /// password; the doors are closed from then on. @throws RuleError "doors_closed"; "needs_teacher" when the shop has
  /// people and the id is no teacher's; InputError
  Person close_first(const Uuid& id, const std::string& name, const std::string& password);

  /// Sets or replaces a secret. @throws RuleError "unknown_person"; InputError
  void set(const Uuid& person_id, SecretKind kind, const std::string& secret, const Uuid& by);

  /// Shop::put_person where it leaves somebody who can come in and mend things. @throws RuleError "last_door"  when the
  /// last teacher with a password would be one no more
  Person put_person(const Person& wanted, const Uuid& by);

  /// Takes a secret away; nothing happens where there is none.
  /// @throws RuleError "last_door"  for the password that is the last one of any teacher: nobody could come in to mend
  ///         it
  void take_away(const Uuid& person_id, SecretKind kind, const Uuid& by);

 private:
  Secret made(const Uuid& person_id, SecretKind kind, const std::string& secret) const;
  void write(Secret secret, const Uuid& by);
  void expect_another_teacher(const Uuid& person_id, const std::string& field) const;

  Shop& shop_;
  SecretStore& store_;
  HashCosts costs_;
  std::function<UtcTime()> now_;
  RandomBytes random_;
  std::string nobodys_pin_;  ///< hashes that no secret fits, to spend the same time on
  std::string nobodys_password_;
  mutable std::mutex hashing_;  ///< one at a time, so that a crowd at the door takes no more memory than one
  std::mutex writing_;
  mutable std::mutex guard_;  ///< of the hashes
  std::map<std::pair<Uuid, SecretKind>, std::string> hashes_;
};

}  // namespace brakewright::shop
