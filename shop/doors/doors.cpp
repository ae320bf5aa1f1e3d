#include "shop/doors/doors.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "shop/doors/token.hpp"
#include "shop/find.hpp"
#include "shop/journal/chain.hpp"

namespace brakewright::shop {
namespace {

/// The row as the journal tells it: of the hash its own hash alone.
std::string detail_of(const Secret& secret) {
  const nlohmann::ordered_json detail = {{"person_id", to_text(secret.person_id)},
                                         {"kind", std::string(word_of_secret(secret.kind))},
                                         {"hash", secret.hash.empty() ? "" : veiled(secret.hash)},
                                         {"set_at", to_text(secret.set_at)},
                                         {"by_person_id", to_text(secret.by_person_id)}};
  return detail.dump();
}

}  // namespace

Doors::Doors(Shop& shop, SecretStore& store, HashCosts costs, std::function<UtcTime()> now, RandomBytes random)
    : shop_(shop), store_(store), costs_(costs), now_(std::move(now)), random_(std::move(random)) {
  nobodys_pin_ = hash_of(new_token(random_), costs_.pin, random_);
  nobodys_password_ = hash_of(new_token(random_), costs_.password, random_);
  shop_.undisturbed([&] {
    for (Secret& one : store_.secrets()) {
      if (!one.hash.empty()) hashes_[{one.person_id, one.kind}] = std::move(one.hash);
    }
  });
}

bool Doors::closed() const {
  const std::lock_guard lock(guard_);
  return !hashes_.empty();
}

bool Doors::has(const Uuid& person_id, SecretKind kind) const {
  const std::lock_guard lock(guard_);
  return hashes_.contains({person_id, kind});
}

bool Doors::holds(const Uuid& person_id, SecretKind kind, const std::string& secret) const {
  std::string hash = kind == SecretKind::pin ? nobodys_pin_ : nobodys_password_;
  bool known = false;
  {
    const std::lock_guard lock(guard_);
    const auto found = hashes_.find({person_id, kind});
    known = found != hashes_.end();
    if (known) hash = found->second;
  }
  const std::lock_guard lock(hashing_);
  return hash_holds(hash, secret) && known;
}

Secret Doors::made(const Uuid& person_id, SecretKind kind, const std::string& secret) const {
  const std::lock_guard lock(hashing_);
  return {.person_id = person_id, .kind = kind, .hash = hash_of(secret, costs_.of(kind), random_)};
}

void Doors::write(Secret secret, const Uuid& by) {
  shop_.journaled(by, [&](const Recorder& record) {
    secret.by_person_id = by;
    secret.set_at = now_();
    store_.put(secret);
    record(secret.hash.empty() ? "secret.taken_away" : "secret.set", {}, secret.person_id, detail_of(secret));
  });
}

Person Doors::close_first(const Uuid& id, const std::string& name, const std::string& password) {
  const auto refuse_second = [&] {
    if (!closed()) return;
    throw RuleError("doors_closed", "", "this shop has its first account already; come in by your own name");
  };
  refuse_second();  // before the hashing, which others at the door wait for
  check_secret(SecretKind::password, password, "password");
  Secret first = made(id, SecretKind::password, password);
  const std::lock_guard writing(writing_);
  refuse_second();
  Person teacher;
  shop_.batch([&] {
    const auto people = shop_.people();
    if (people.empty()) {
      teacher = shop_.put_person({.id = id, .name = name, .role = Role::teacher}, id);
    } else {
      const Person* present = find(people, id);
      if (present == nullptr || present->role != Role::teacher || !present->active) {
        throw RuleError("needs_teacher", "id", "the first password is a teacher's of this shop");
      }
      teacher = *present;
    }
    write(first, id);
  });
  const std::lock_guard lock(guard_);
  hashes_[{id, SecretKind::password}] = first.hash;
  return teacher;
}

void Doors::set(const Uuid& person_id, SecretKind kind, const std::string& secret, const Uuid& by) {
  check_secret(kind, secret, "secret");
  if (find(shop_.people(), person_id) == nullptr) {
    throw RuleError("unknown_person", "person_id", "nobody in this shop has this id");
  }
  const Secret wanted = made(person_id, kind, secret);
  const std::lock_guard writing(writing_);
  write(wanted, by);
  const std::lock_guard lock(guard_);
  hashes_[{person_id, kind}] = wanted.hash;
}

void Doors::expect_another_teacher(const Uuid& person_id, const std::string& field) const {
  const auto people = shop_.people();
  const bool another = std::any_of(people.begin(), people.end(), [&](const Person& one) {
    return one.id != person_id && one.active && one.role == Role::teacher && has(one.id, SecretKind::password);
  });
  if (another) return;
  throw RuleError("last_door", field, "no other teacher has a password, so that nobody could come in to mend this");
}

Person Doors::put_person(const Person& wanted, const Uuid& by) {
  const std::lock_guard writing(writing_);
  const bool stays = wanted.active && wanted.role == Role::teacher;
  if (!stays && has(wanted.id, SecretKind::password))
    expect_another_teacher(wanted.id, wanted.active ? "role" : "active");
  return shop_.put_person(wanted, by);
}

void Doors::take_away(const Uuid& person_id, SecretKind kind, const Uuid& by) {
  const std::lock_guard writing(writing_);
  if (!has(person_id, kind)) return;
  if (kind == SecretKind::password) expect_another_teacher(person_id, "kind");
  write({.person_id = person_id, .kind = kind}, by);
  const std::lock_guard lock(guard_);
  hashes_.erase({person_id, kind});
}

}  // namespace brakewright::shop
