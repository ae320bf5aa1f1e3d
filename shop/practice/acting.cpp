#include <nlohmann/json.hpp>

#include "shop/json.hpp"
#include "shop/practice/act_json.hpp"
#include "shop/practice/bench_json.hpp"
#include "shop/practice/exercise.hpp"
#include "shop/practice/practice.hpp"
#include "shop/practice/seen.hpp"

/// How runs go on and end.
namespace brakewright::shop {
namespace {

constexpr std::size_t kMostRecordBytes = 16'000'000;

Json done_in(PracticeStore& store, Shop& shop, const Uuid& run_id) {
  std::optional<PracticeRecord> record;
  shop.undisturbed([&] { record = store.records().find(run_id); });
  return record ? parse_json(record->done_json, kMostRecordBytes) : Json::object();
}

[[noreturn]] void bench_changed(std::int64_t number) {
  throw RuleError("bench_changed", "run_id",
                  "act " + std::to_string(number) +
                      " of this run does not give what it gave: the program has changed since; begin a new one");
}

/// What the bench refuses: a step that is not possible now is nothing that the sender can mend in its fields.
[[noreturn]] void refuse(const InputError& refusal) {
  if (refusal.code() == "not_now" || refusal.code() == "ended") {
    throw RuleError(refusal.code(), refusal.within("act").field(), refusal.what());
  }
  throw refusal.within("act");
}

const KeptAct* kept_under(const std::vector<KeptAct>& acts, std::int64_t number) {
  const bool known = number >= 1 && number <= static_cast<std::int64_t>(acts.size());
  return known ? &acts[static_cast<std::size_t>(number - 1)] : nullptr;
}

/// An act may have been kept before one of its fields was known.
bool is_same_act(const std::string& kept_json, const std::string& act_json) {
  return kept_json == act_json || act_to_json(act_from_json(parse_json(kept_json), "act")).dump() == act_json;
}

PracticeAnswer answer_again(const KeptAct& kept, const std::string& act_json, const std::string& view_json) {
  if (is_same_act(kept.act_json, act_json)) return {kept.number, kept.outcome_json, view_json};
  throw RuleError("number_taken", "number", "another act was done under this number; ask for the run again");
}

/// What brings a bench to its end is possible however much was done at it.
bool leads_to_the_end(const practice::Act& act) {
  const auto* spindle = std::get_if<practice::Spindle>(&act);
  return (spindle != nullptr && spindle->rpm == 0) || std::holds_alternative<practice::WalkAway>(act) ||
         std::holds_alternative<practice::Decide>(act) || std::holds_alternative<practice::Finish>(act);
}

void expect_next(const PracticeRun& run, std::int64_t number, const practice::Act& act) {
  if (number != run.acts + 1) {
    throw RuleError("number_ahead", "number", "the next act is number " + std::to_string(run.acts + 1));
  }
  if (run.ended_at) throw RuleError("ended", "run_id", "this run has ended; begin a new one");
  if (run.acts >= Practice::kMostActs && !leads_to_the_end(act)) {
    throw RuleError("too_many_acts", "act", "so much was done at this bench that it can only be ended now");
  }
}

/// Nothing where a bench cannot be marked: that ends a run as well.
std::optional<practice::Mark> mark_of(const practice::Run& run) {
  try {
    return run.mark();
  } catch (const InputError&) {
    return std::nullopt;
  }
}

}  // namespace

practice::Exercise exercise_of(std::int64_t seed, std::int64_t difficulty,
                               const std::optional<std::vector<std::string>>& faults) {
  practice::Exercise exercise{.seed = static_cast<std::uint64_t>(seed), .difficulty = static_cast<int>(difficulty)};
  if (!faults) return exercise;
  exercise.faults.emplace();
  for (std::size_t k = 0; k < faults->size(); ++k) {
    exercise.faults->push_back(practice::fault_named((*faults)[k], "faults[" + std::to_string(k) + "]"));
  }
  return exercise;
}

std::string kept_mark(PracticeStore& store, Shop& shop, const Uuid& run_id) {
  const Json mark = done_in(store, shop, run_id).value("mark", Json());
  return mark.is_object() ? mark.dump() : "{}";
}

std::vector<KeptAct> Practice::kept_acts(const PracticeRun& run) {
  if (!run.ended_at) return book_.acts(run.id);
  std::vector<KeptAct> acts;
  for (const Json& one : done_in(store_, shop_, run.id).value("acts", Json::array())) {
    acts.push_back({one.at("number").get<std::int64_t>(), one.at("act").dump(), one.at("outcome").dump()});
  }
  return acts;
}

/// What has ended stands still: it may stand where it is looked at, beside the benches that are worked at.
std::shared_ptr<LiveRun> Practice::hold(const Uuid& run_id) {
  if (!known(run_id).run.ended_at) return live_.hold(run_id);
  if (auto as_it_was_left = live_.find(run_id)) return as_it_was_left;
  return shown_.hold(run_id);
}

practice::Run& Practice::set_up(LiveRun& live, const PracticeRun& run, Turn turn) {
  if (live.run) return *live.run;
  if (turn == Turn::waits) {
    replays_.acquire();
  } else if (!replays_.try_acquire()) {
    throw RuleError("bench_busy", "run_id", "other benches are being set up; ask again in a few seconds");
  }
  const std::unique_ptr<std::counting_semaphore<kReplays>, void (*)(std::counting_semaphore<kReplays>*)> taken(
      &replays_, [](auto* replays) { replays->release(); });
  practice::Run bench(exercise_of(run.seed, run.difficulty, run.faults));
  std::vector<KeptAct> acts = kept_acts(run);
  for (const KeptAct& kept : acts) {
    try {
      const practice::Outcome outcome = bench.apply(act_from_json(parse_json(kept.act_json), "act"));
      if (outcome_to_json(outcome).dump() != kept.outcome_json) bench_changed(kept.number);
    } catch (const RuleError&) {
      throw;
    } catch (const InputError&) {
      bench_changed(kept.number);
    }
  }
  live.acts = std::move(acts);
  live.run.emplace(std::move(bench));
  return *live.run;
}

PracticeAnswer Practice::act(const Uuid& run_id, const NewPracticeAct& wanted, const Uuid& by) {
  check(wanted);
  if (known(run_id).run.person_id != by) {
    throw RuleError("not_yours", "by_person_id", "only whose run it is acts in it");
  }
  const auto live = hold(run_id);
  PracticeAnswer answer;
  {
    const std::lock_guard lock(live->guard);
    answer = go_on(*live, known(run_id), wanted);
  }
  tell(run_id);
  return answer;
}

PracticeAnswer Practice::go_on(LiveRun& live, const Known& before, const NewPracticeAct& wanted) {
  const practice::Act act = act_from_json(parse_json(wanted.act_json), "act");
  const std::string act_json = act_to_json(act).dump();
  if (before.run.ended_at || before.ends) {
    const auto acts = kept_acts(before.run);
    const PracticeRun ended = before.ends ? mark_late(live, before).run : before.run;
    if (const KeptAct* kept = kept_under(acts, wanted.number)) return answer_again(*kept, act_json, ended.view_json);
    expect_next(ended, wanted.number, act);
  }
  practice::Run& bench = set_up(live, before.run);
  if (const KeptAct* kept = kept_under(live.acts, wanted.number)) {
    return answer_again(*kept, act_json, before.run.view_json);
  }
  expect_next(before.run, wanted.number, act);
  Known after = before;
  KeptAct made{.number = wanted.number, .act_json = act_json};
  try {
    made.outcome_json = outcome_to_json(bench.apply(act)).dump();
  } catch (const InputError& refusal) {
    refuse(refusal);
  }
  try {
    const practice::View view = bench.view();
    after.run.acts = wanted.number;
    after.run.view_json = view_to_json(view).dump();
    after.last_act_at = around_.now();
    after.ends = view.ended.has_value();
    book_.keep(made, {.run_id = before.run.id,
                      .acts = wanted.number,
                      .view_json = after.run.view_json,
                      .at = after.last_act_at,
                      .ends = after.ends});
  } catch (...) {
    live.run.reset();
    live.acts.clear();
    throw;
  }
  live.acts.push_back(made);
  note(after);
  if (after.ends) fold(live, after);
  return {made.number, made.outcome_json, after.run.view_json};
}

void Practice::fold(LiveRun& live, const Known& ended) {
  const std::optional<practice::Mark> mark = mark_of(*live.run);
  Known after = ended;
  after.ends = false;
  after.run.ended_at = ended.last_act_at;
  if (mark) {
    after.run.points = mark->points;
    after.run.safe = mark->safe;
  }
  write_end(after, live.acts, mark ? mark_to_json(*mark).dump() : "");
}

/// Of a run whose last act was kept when the program ended, and its mark was not. A bench that cannot be set up any
/// more leaves it as it is.
Practice::Known Practice::mark_late(LiveRun& live, const Known& ended) {
  try {
    set_up(live, ended.run);
  } catch (const RuleError&) {
    return ended;
  }
  fold(live, ended);
  return known(ended.run.id);
}

void Practice::write_end(const Known& ended, const std::vector<KeptAct>& acts, const std::string& mark_json) {
  const PracticeRun& run = ended.run;
  Json told = Json::array();
  for (const KeptAct& one : acts) {
    told.push_back(
        {{"number", one.number}, {"act", Json::parse(one.act_json)}, {"outcome", Json::parse(one.outcome_json)}});
  }
  const Json done{{"acts", std::move(told)}, {"mark", mark_json.empty() ? Json(nullptr) : Json::parse(mark_json)}};
  const PracticeRecord record{.id = run.id, .done_json = done.dump(), .at = *run.ended_at};
  shop_.journaled(run.person_id, [&](const Recorder& recorder) {
    recorder.put(store_.runs(), run, run.points ? "ended" : "given_up");
    recorder.put(store_.records(), record, "kept");
  });
  note(ended);
  try {
    book_.forget(run.id);
  } catch (const StoreError&) {
    // The record has it; what the book still holds is dropped when the program is started again.
  }
}

void Practice::give_up(const Uuid& run_id) {
  const auto live = live_.hold(run_id);
  const std::lock_guard lock(live->guard);
  Known now = known(run_id);
  if (now.run.ended_at) return;
  if (now.ends) now = mark_late(*live, now);
  if (now.run.ended_at) return;
  Json view = Json::parse(now.run.view_json);
  view["ended"] = ended_to_json({.code = "given_up", .text = "Another run was begun in its place.", .unsafe = false});
  now.run.view_json = view.dump();
  now.run.ended_at = around_.now();
  write_end(now, live->run ? live->acts : book_.acts(run_id), "");
  live->run.reset();
  live->acts.clear();
  tell(run_id);
}

bool Practice::can_go_on(const Uuid& run_id) {
  const auto live = live_.hold(run_id);
  const std::lock_guard lock(live->guard);
  const Known now = known(run_id);
  if (now.run.ended_at || now.ends || now.run.acts >= kMostActs) return false;
  try {
    set_up(*live, now.run);
  } catch (const RuleError&) {
    return false;
  }
  return true;
}

practice::Picture Practice::picture(const Uuid& run_id, practice::Side side, int angles, int rings) {
  const auto live = hold(run_id);
  const std::lock_guard lock(live->guard);
  return as_seen(set_up(*live, known(run_id).run, Turn::refused).picture(side, angles, rings));
}

std::vector<float> Practice::sound(const Uuid& run_id, double seconds, int rate_hz) {
  const auto live = hold(run_id);
  const std::lock_guard lock(live->guard);
  return set_up(*live, known(run_id).run, Turn::refused).sound(seconds, rate_hz);
}

}  // namespace brakewright::shop
