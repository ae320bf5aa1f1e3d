#pragma once

#include "shop/fields.hpp"
#include "shop/practice/entities.hpp"

namespace brakewright::shop {

namespace rules {
inline constexpr Rule difficulty{.low = 0, .high = 5};
inline constexpr Rule practice_seed{.low = 0, .high = 9007199254740991.0};
inline constexpr Rule practice_seed_or_none{.needed = false, .low = 0, .high = 9007199254740991.0};
}  // namespace rules

template <Of<PracticeSet> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("name", e.name, rules::name);
  v("seed", e.seed, rules::practice_seed);
  v("difficulty", e.difficulty, rules::difficulty);
  v("faults", e.faults, rules::made);
  v("open", e.open, rules::plain);
  v("made_by_person_id", e.made_by_person_id, rules::plain);
  v("made_at", e.made_at, rules::plain);
}

template <Of<NewPracticeSet> E, class V>
void fields(E& e, V&& v) {
  v("name", e.name, rules::name);
  v("seed", e.seed, rules::practice_seed);
  v("difficulty", e.difficulty, rules::difficulty);
  v("faults", e.faults, rules::made);
  v("open", e.open, rules::plain);
}

template <Of<PracticeRun> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("person_id", e.person_id, rules::plain);
  v("set_id", e.set_id, rules::made);
  v("seed", e.seed, rules::practice_seed);
  v("difficulty", e.difficulty, rules::difficulty);
  v("faults", e.faults, rules::made);
  v("begun_at", e.begun_at, rules::plain);
  v("ended_at", e.ended_at, rules::made);
  v("points", e.points, Rule{.needed = false, .low = 0, .high = 100});
  v("safe", e.safe, rules::made);
  v("acts", e.acts, rules::counter);
  v("view", e.view_json, rules::object);
}

template <Of<PracticeRecord> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("done", e.done_json, rules::object);
  v("at", e.at, rules::plain);
}

template <Of<NewPracticeRun> E, class V>
void fields(E& e, V&& v) {
  v("difficulty", e.difficulty, rules::difficulty);
  v("set_id", e.set_id, rules::made);
  v("seed", e.seed, rules::practice_seed_or_none);
}

template <Of<NewPracticeAct> E, class V>
void fields(E& e, V&& v) {
  v("number", e.number, Rule{.low = 1, .high = 9e15});
  v("act", e.act_json, Rule{.text = {.longest = 4'000, .lines = true}, .json = true});
}

}  // namespace brakewright::shop
