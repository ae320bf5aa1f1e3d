#include <nlohmann/json.hpp>

#include "shop/changing.hpp"
#include "shop/find.hpp"
#include "shop/journal/telling.hpp"
#include "shop/json.hpp"

/// The name of somebody who asks for it is taken out of the shop; what they did stays theirs, without it.
namespace brakewright::shop {
namespace {

constexpr std::int64_t kEntriesAtOnce = 1'000;

/// Whether an entry tells a person's name as such.
bool tells_person(const Change& change, const Uuid& person_id) {
  return change.subject_id == person_id && told_table(change.kind) == "person" && !change.detail_json.empty();
}

}  // namespace

Person Shop::erase_person(const Uuid& person_id, const Uuid& by) {
  return changing(by, [&] {
    const Person* present = find(known_people(), person_id);
    if (present == nullptr) throw RuleError("unknown_person", "person_id", "nobody in this shop has this id");
    if (leads(present->role)) {
      throw RuleError("signs", "person_id", "a name that stands under others' work as its signature stays");
    }
    std::size_t former = 1;
    std::vector<std::int64_t> erased;
    for (const Person& other : known_people()) former += other.name.starts_with("Former student ") ? 1U : 0U;
    if (present->name.starts_with("Former student ")) return *present;
    for (std::int64_t after = 0;;) {
      const auto some = store_.changes(after, kEntriesAtOnce, std::nullopt);
      for (const Change& change : some) {
        if (tells_person(change, person_id)) erased.push_back(change.seq);
      }
      if (some.size() < static_cast<std::size_t>(kEntriesAtOnce)) break;
      after = some.back().seq;
    }
    Person person = *present;
    person.name = "Former student " + std::to_string(former);
    person.active = false;
    store_.put(person);
    people_.reset();
    hands_.reset();
    files_.clear();
    ++context_;
    record("person.erased", {}, person_id, Json({{"entries", erased}, {"person", to_json(person)}}).dump(), by);
    for (const std::int64_t seq : erased) store_.erase_detail(seq);
    store_.forget_words();
    return person;
  });
}

}  // namespace brakewright::shop
