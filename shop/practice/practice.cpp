#include "shop/practice/practice.hpp"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <set>

#include "shop/find.hpp"
#include "shop/json.hpp"
#include "shop/practice/bench_json.hpp"
#include "shop/practice/exercise.hpp"

/// Sets, the beginning of runs, and what is told of them. How they go on stands in acting.cpp.
namespace brakewright::shop {
namespace {

void check_faults(const std::optional<std::vector<std::string>>& faults) {
  if (!faults) return;
  std::set<std::string> seen;
  for (std::size_t k = 0; k < faults->size(); ++k) {
    const std::string field = "faults[" + std::to_string(k) + "]";
    practice::fault_named((*faults)[k], field);
    if (!seen.insert((*faults)[k]).second) throw InputError("duplicate", field, "this stands here already");
  }
}

bool is_view(const std::string& json) {
  const Json view = Json::parse(json, nullptr, false);
  return view.is_object() && view.contains("ended");
}

}  // namespace

Practice::Practice(Shop& shop, PracticeStore& store, PracticeBook& book, Surroundings around, std::size_t live_runs)
    : shop_(shop), store_(store), book_(book), around_(std::move(around)), live_(live_runs) {
  read_all();
}

void Practice::read_all() {
  shop_.undisturbed([&] {
    sets_ = store_.sets().all();
    for (PracticeRun& run : store_.runs().all()) {
      const UtcTime last = run.ended_at.value_or(run.begun_at);
      const Uuid id = run.id;
      known_[id] = {.run = std::move(run), .last_act_at = last};
    }
  });
  for (OpenRun& open : book_.open_runs()) {
    const auto found = known_.find(open.run_id);
    if (found == known_.end() || found->second.run.ended_at) {
      book_.forget(open.run_id);
      continue;
    }
    found->second.run.acts = open.acts;
    // Its acts set the bench up again; a view of it that cannot be read must not keep others' from being listed.
    if (is_view(open.view_json)) found->second.run.view_json = std::move(open.view_json);
    found->second.last_act_at = open.at;
    found->second.ends = open.ends;
  }
}

void Practice::on_change(std::function<void(const Uuid&)> listener) {
  const std::lock_guard lock(telling_);
  listeners_.push_back(std::move(listener));
}

void Practice::tell(const Uuid& run_id) {
  const std::lock_guard lock(telling_);
  for (const auto& listener : listeners_) listener(run_id);
}

std::vector<PracticeSet> Practice::sets() {
  const std::lock_guard lock(guard_);
  return sets_;
}

std::optional<PracticeSet> Practice::known_set(const Uuid& set_id) {
  const std::lock_guard lock(guard_);
  const PracticeSet* found = find(sets_, set_id);
  return found == nullptr ? std::nullopt : std::optional(*found);
}

PracticeSet Practice::put_set(const Uuid& set_id, const NewPracticeSet& wanted, const Uuid& by) {
  check(wanted);
  check_faults(wanted.faults);
  PracticeSet set{.id = set_id,
                  .name = wanted.name,
                  .seed = wanted.seed,
                  .difficulty = wanted.difficulty,
                  .faults = wanted.faults,
                  .open = wanted.open,
                  .made_by_person_id = by,
                  .made_at = around_.now()};
  practice::bench_of(exercise_of(set.seed, set.difficulty, set.faults));
  const std::lock_guard one_at_a_time(setting_);
  shop_.journaled(by, [&](const Recorder& recorder) {
    const auto people = shop_.people();
    const Person* person = find(people, by);
    if (person == nullptr || !leads(person->role)) {
      throw RuleError("needs_teacher", "by_person_id", "a teacher or a lead hand does this");
    }
    const auto present = store_.sets().find(set_id);
    if (present) {
      set.made_by_person_id = present->made_by_person_id;
      set.made_at = present->made_at;
    }
    if (present == set) return;
    recorder.put(store_.sets(), set, present ? "changed" : "added");
  });
  const std::lock_guard lock(guard_);
  const auto same = std::find_if(sets_.begin(), sets_.end(), [&](const PracticeSet& one) { return one.id == set_id; });
  if (same == sets_.end()) {
    sets_.push_back(set);
  } else {
    *same = set;
  }
  return set;
}

std::int64_t Practice::drawn_seed() {
  std::array<std::uint8_t, 6> bytes{};
  around_.random(bytes);
  std::int64_t seed = 0;
  for (const std::uint8_t byte : bytes) seed = seed * 256 + byte;
  return seed;
}

/// What the mark of a run proposes next carries its faults; they are told nobody, and come with its seed.
std::optional<std::vector<std::string>> Practice::faults_of_next(const Uuid& person_id, std::int64_t seed,
                                                                 std::int64_t difficulty) {
  std::optional<PracticeRun> newest;
  {
    const std::lock_guard lock(guard_);
    for (const auto& [id, one] : known_) {
      if (one.run.person_id != person_id || !one.run.points) continue;
      if (!newest || *one.run.ended_at >= *newest->ended_at) newest = one.run;
    }
  }
  if (!newest) return std::nullopt;
  const Json next = parse_json(kept_mark(store_, shop_, newest->id)).value("next", Json::object());
  if (next.value("seed", std::int64_t{-1}) != seed || next.value("difficulty", std::int64_t{-1}) != difficulty) {
    return std::nullopt;
  }
  const Json faults = next.value("faults", Json());
  if (!faults.is_array()) return std::nullopt;
  return faults.get<std::vector<std::string>>();
}

PracticeRun Practice::planned(const NewPracticeRun& wanted, const Person& person) {
  PracticeRun run{.person_id = person.id, .set_id = wanted.set_id, .difficulty = wanted.difficulty};
  if (wanted.set_id) {
    const auto set = known_set(*wanted.set_id);
    if (!set || (!set->open && !leads(person.role))) {
      throw RuleError("unknown_set", "set_id", "no exercise that is open to you has this id");
    }
    run.seed = set->seed;
    run.difficulty = set->difficulty;
    run.faults = set->faults;
  } else {
    run.seed = wanted.seed ? *wanted.seed : drawn_seed();
    if (wanted.seed) run.faults = faults_of_next(person.id, run.seed, run.difficulty);
  }
  return run;
}

std::optional<Uuid> Practice::open_run_of(const Uuid& person_id, const std::optional<Uuid>& set_id) {
  const std::lock_guard lock(guard_);
  for (const auto& [id, one] : known_) {
    if (one.run.person_id == person_id && one.run.set_id == set_id && !one.run.ended_at) return id;
  }
  return std::nullopt;
}

PracticeFile Practice::begin(const NewPracticeRun& wanted, const Uuid& by) {
  check(wanted);
  const auto people = shop_.people();
  const Person* person = find(people, by);
  if (person == nullptr) throw RuleError("unknown_person", "by_person_id", "nobody in this shop has this id");
  if (person->role == Role::visitor) throw RuleError("visitor", "by_person_id", "visitors look on");
  const std::lock_guard one_at_a_time(beginning_[by.bytes.back() % beginning_.size()]);
  PracticeRun run = planned(wanted, *person);
  if (const auto open = open_run_of(by, wanted.set_id)) {
    const PracticeRun present = known(*open).run;
    const bool same = present.difficulty == run.difficulty && (!wanted.seed || present.seed == run.seed);
    const bool is_the_one = wanted.set_id ? can_go_on(*open) : same && present.acts == 0;
    if (is_the_one) return this->run(*open);
    give_up(*open);
  }
  run.id = shop_.new_id();
  run.begun_at = around_.now();
  const auto live = live_.hold(run.id);
  {
    const std::lock_guard lock(live->guard);
    live->run.emplace(exercise_of(run.seed, run.difficulty, run.faults));
    run.view_json = view_to_json(live->run->view()).dump();
  }
  shop_.journaled(by, [&](const Recorder& recorder) { recorder.put(store_.runs(), run, "begun"); });
  note({.run = run, .last_act_at = run.begun_at});
  tell(run.id);
  return this->run(run.id);
}

Practice::Known Practice::known(const Uuid& run_id) {
  const std::lock_guard lock(guard_);
  const auto found = known_.find(run_id);
  if (found == known_.end()) throw RuleError("unknown_run", "run_id", "no run of this shop has this id");
  return found->second;
}

void Practice::note(const Known& known) {
  const std::lock_guard lock(guard_);
  known_[known.run.id] = known;
}

Uuid Practice::person_of(const Uuid& run_id) { return known(run_id).run.person_id; }

PracticeLine Practice::line_of(const Known& known, const std::vector<Person>& people) {
  PracticeLine line{.run = known.run, .last_act_at = known.last_act_at};
  if (const Person* person = find(people, known.run.person_id)) line.person_name = person->name;
  if (known.run.set_id) {
    if (const auto set = known_set(*known.run.set_id)) line.set_name = set->name;
  }
  return line;
}

PracticePage Practice::runs(const PracticeWish& wish) {
  const auto people = shop_.people();
  std::optional<std::pair<UtcTime, Uuid>> before;
  if (wish.before) before.emplace(known(*wish.before).run.begun_at, *wish.before);
  PracticePage page;
  std::vector<Known> newest;
  {
    const std::lock_guard lock(guard_);
    std::vector<const Known*> all;
    for (const auto& [id, one] : known_) {
      if (wish.person_id && one.run.person_id != *wish.person_id) continue;
      if (wish.live_since && (one.run.ended_at || one.last_act_at < *wish.live_since)) continue;
      if (before && std::pair(one.run.begun_at, id) >= *before) continue;
      all.push_back(&one);
    }
    const auto end = all.begin() + static_cast<std::ptrdiff_t>(std::min(wish.most, all.size()));
    std::partial_sort(all.begin(), end, all.end(), [](const Known* a, const Known* b) {
      return std::pair(a->run.begun_at, a->run.id) > std::pair(b->run.begun_at, b->run.id);
    });
    for (auto one = all.begin(); one != end; ++one) newest.push_back(**one);
    page.earlier = all.size() - newest.size();
  }
  for (const Known& one : newest) page.lines.push_back(line_of(one, people));
  return page;
}

PracticeFile Practice::run(const Uuid& run_id) {
  const auto live = hold(run_id);
  const std::lock_guard lock(live->guard);
  Known now = known(run_id);
  if (now.ends) now = mark_late(*live, now);
  PracticeFile file{.line = line_of(now, shop_.people()),
                    .bench = practice::bench_of(exercise_of(now.run.seed, now.run.difficulty, now.run.faults)),
                    .acts = live->run ? live->acts : kept_acts(now.run)};
  if (now.run.points) file.mark_json = kept_mark(store_, shop_, run_id);
  return file;
}

std::map<Uuid, double> Practice::best_points() {
  std::map<Uuid, double> best;
  shop_.undisturbed([&] { best = store_.best_points(); });
  return best;
}

bool Practice::has_ended(const Uuid& run_id, const Uuid& person_id) {
  std::optional<PracticeRun> run;
  shop_.undisturbed([&] { run = store_.runs().find(run_id); });
  return run && run->person_id == person_id && run->points;
}

}  // namespace brakewright::shop
