#include "shop/practice/practice.hpp"

#include <atomic>
#include <thread>

#include "shop/practice/act_json.hpp"
#include "tests/shop/practice/practice_scene.hpp"

namespace brakewright::shop {
namespace {

class PracticeRuns : public PracticeRoom {};

TEST_F(PracticeRuns, AreReadAnewAndGoOnWhereTheyWere) {
  const Uuid run = begin(students[0], 9).line.run.id;
  act(run, 1, kDecide);
  const auto shown = act(run, 2, kWait);
  start();
  const PracticeFile file = practice->run(run);
  ASSERT_EQ(file.acts.size(), 2U);
  EXPECT_EQ(file.acts[1].outcome_json, shown.outcome_json);
  EXPECT_EQ(file.line.run.view_json, shown.view_json);
  EXPECT_EQ(file.line.last_act_at, clock);
  const auto again = act(run, 2, kWait);
  EXPECT_EQ(again.outcome_json, shown.outcome_json);
  EXPECT_EQ(again.view_json, shown.view_json);
  EXPECT_EQ(act(run, 3, kFinish).number, 3);
  EXPECT_TRUE(book.open_runs().empty());
}

TEST_F(PracticeRuns, ThatEndedAreTheSameInTheRecordAsTheyWereAtTheBench) {
  const Uuid run = begin(students[0], 9).line.run.id;
  act(run, 1, kDecide);
  const auto last = act(run, 2, kFinish);
  const PracticeFile before = practice->run(run);
  const auto picture = practice->picture(run, practice::Side::outboard, 36, 8);
  start();
  const PracticeFile after = practice->run(run);
  EXPECT_EQ(after.mark_json, before.mark_json);
  EXPECT_EQ(after.line.run, before.line.run);
  ASSERT_EQ(after.acts.size(), 2U);
  EXPECT_EQ(after.acts[0].outcome_json, before.acts[0].outcome_json);
  EXPECT_EQ(practice->picture(run, practice::Side::outboard, 36, 8).height_um, picture.height_um);
  EXPECT_EQ(act(run, 2, kFinish).outcome_json, last.outcome_json);
  EXPECT_EQ(code_of([&] { act(run, 3, kLook); }), "ended");
}

TEST_F(PracticeRuns, AreMarkedAfterwardsWhereTheProgramEndedBetweenTheLastActAndTheRecord) {
  const Uuid run = begin(students[0], 9).line.run.id;
  act(run, 1, kDecide);
  const OpenRun open = book.open_runs().front();
  const KeptAct decided = book.acts(run).front();
  const auto outcome = act(run, 2, kFinish);
  const Uuid other = begin(students[0], 9).line.run.id;
  book.keep(decided, {.run_id = other, .acts = 1, .view_json = open.view_json, .at = clock});
  book.keep({2, act_to_json(practice::Finish{}).dump(), outcome.outcome_json},
            {.run_id = other, .acts = 2, .view_json = outcome.view_json, .at = clock, .ends = true});
  start();
  EXPECT_FALSE(practice->runs({.person_id = students[0]}).lines.front().run.points);
  EXPECT_EQ(act(other, 2, kFinish).outcome_json, outcome.outcome_json);
  EXPECT_EQ(practice->run(other).mark_json, practice->run(run).mark_json);
  EXPECT_EQ(practice->run(other).acts.size(), 2U);
}

TEST_F(PracticeRuns, LoseNothingButTheActThatTheMediumRefused) {
  const Uuid run = begin(students[0], 9).line.run.id;
  const auto first = act(run, 1, kWait);
  book.fails = true;
  EXPECT_THROW(act(run, 2, kWait), StoreError);
  book.fails = false;
  EXPECT_EQ(practice->run(run).line.run.acts, 1);
  EXPECT_EQ(practice->run(run).line.run.view_json, first.view_json);
  EXPECT_EQ(act(run, 2, kLook).number, 2);
  EXPECT_EQ(practice->run(run).acts.size(), 2U);
}

TEST_F(PracticeRuns, OfAProgramThatCutOtherwiseAreNotGoneOnWith) {
  const Uuid run = begin(students[0], 9).line.run.id;
  act(run, 1, kLook);
  const KeptAct look = book.acts(run).front();
  const OpenRun open = book.open_runs().front();
  book.forget(run);
  book.keep({1, look.act_json, R"({"took_s":-1})"}, open);
  start();
  EXPECT_EQ(code_of([&] { act(run, 2, kLook); }), "bench_changed");
  EXPECT_NE(begin(students[0]).line.run.id, run);
  EXPECT_EQ(view_of(practice->run(run))["ended"]["code"], "given_up");
}

TEST_F(PracticeRuns, OfASetThatCannotBeGoneOnWithAreBegunAnew) {
  const Uuid set = id();
  practice->put_set(set, {.name = "Rust", .seed = 9, .difficulty = 1, .open = true}, teacher);
  const auto begin_set = [&] { return practice->begin({.set_id = set}, students[0]).line.run.id; };
  const Uuid run = begin_set();
  act(run, 1, kLook);
  EXPECT_EQ(begin_set(), run) << "as long as it can be gone on with";
  const KeptAct look = book.acts(run).front();
  const OpenRun open = book.open_runs().front();
  book.forget(run);
  book.keep({1, look.act_json, R"({"took_s":-1})"}, open);
  start();
  EXPECT_NE(begin_set(), run);
  EXPECT_EQ(view_of(practice->run(run))["ended"]["code"], "given_up");
}

TEST_F(PracticeRuns, EndWithAMarkHoweverOftenOnePlaceWasRead) {
  const Uuid run = begin(students[0], 9).line.run.id;
  const auto& bench = practice->run(run).bench;
  const auto& shape = bench.make.shape;
  const Json measure = {{"do", "measure"},
                        {"instrument_id", bench.instruments.front().id},
                        {"radius_mm", (shape.band_inner_radius_mm + shape.band_outer_radius_mm) / 2},
                        {"angle_deg", 0}};
  std::int64_t number = 0;
  for (int k = 0; k < 9; ++k) act(run, ++number, measure.dump());
  act(run, ++number, kDecide);
  act(run, ++number, kFinish);
  EXPECT_TRUE(practice->run(run).line.run.points.has_value());
}

TEST_F(PracticeRuns, WhoseViewCannotBeReadAreListedAsTheyBeganAndGoOn) {
  const Uuid run = begin(students[0], 9).line.run.id;
  act(run, 1, kLook);
  const KeptAct look = book.acts(run).front();
  OpenRun open = book.open_runs().front();
  open.view_json = "{half";
  book.forget(run);
  book.keep(look, open);
  start();
  EXPECT_TRUE(parse_json(practice->runs().lines.front().run.view_json).at("ended").is_null());
  EXPECT_EQ(act(run, 2, kLook).number, 2);
}

TEST_F(PracticeRuns, AreListedAPageAtATimeTheNewestFirst) {
  std::vector<Uuid> newest_first;
  for (int k = 0; k < 5; ++k) {
    newest_first.insert(newest_first.begin(), begin(students[0], k, 0).line.run.id);
    act(newest_first.front(), 1, kLook);
  }
  const Uuid others = begin(students[1]).line.run.id;
  std::vector<Uuid> listed;
  PracticeWish wish{.person_id = students[0], .most = 2};
  for (const std::size_t earlier : {3U, 1U, 0U}) {
    const PracticePage page = practice->runs(wish);
    EXPECT_EQ(page.earlier, earlier);
    for (const PracticeLine& line : page.lines) listed.push_back(line.run.id);
    wish.before = listed.back();
  }
  EXPECT_EQ(listed, newest_first);
  EXPECT_TRUE(practice->runs(wish).lines.empty());
  EXPECT_EQ(practice->runs({.before = others}).lines.size(), 5U);
  EXPECT_EQ(code_of([&] { practice->runs({.before = id()}); }), "unknown_run");
}

TEST_F(PracticeRuns, ThatEndedAreLookedAtWithoutTakingABenchFromWhoWorks) {
  const Uuid ended = begin(students[0], 9).line.run.id;
  act(ended, 1, kDecide);
  act(ended, 2, kFinish);
  start(1);
  const Uuid goes_on = begin(students[1], 9).line.run.id;
  act(goes_on, 1, kLook);
  int read = 0;
  book.on_read = [&] { ++read; };
  practice->picture(ended, practice::Side::outboard, 36, 8);
  practice->run(ended);
  act(goes_on, 2, kLook);
  EXPECT_EQ(read, 0) << "its bench was set up anew";
}

TEST_F(PracticeRuns, AreSetUpForALookNoMoreThanAFewAtATime) {
  std::vector<Uuid> runs;
  for (std::int64_t seed = 0; seed < 3; ++seed) {
    const Uuid set = id();
    practice->put_set(set, {.name = "Rust", .seed = seed, .difficulty = 0, .open = true}, teacher);
    runs.push_back(practice->begin({.set_id = set}, students[0]).line.run.id);
    act(runs.back(), 1, kLook);
  }
  start();
  std::mutex door;
  std::atomic<int> reading = 0;
  door.lock();
  book.on_read = [&] {
    ++reading;
    const std::lock_guard wait(door);
  };
  std::vector<std::thread> lookers;
  for (std::size_t k = 0; k < Practice::kReplays; ++k) {
    lookers.emplace_back([&, k] { practice->picture(runs[k], practice::Side::outboard, 36, 8); });
  }
  while (reading < Practice::kReplays) std::this_thread::yield();
  EXPECT_EQ(code_of([&] { practice->picture(runs[2], practice::Side::outboard, 36, 8); }), "bench_busy");
  EXPECT_EQ(code_of([&] { practice->sound(runs[2], 1, 22'050); }), "bench_busy");
  std::thread acts([&] { practice->act(runs[2], {2, kLook}, students[0]); });
  door.unlock();
  for (std::thread& one : lookers) one.join();
  acts.join();
  EXPECT_EQ(practice->run(runs[2]).acts.size(), 2U) << "an act waits for its turn";
  EXPECT_EQ(practice->picture(runs[2], practice::Side::outboard, 36, 8).height_um.size(), 36U * 8);
}

TEST_F(PracticeRuns, AreActedInByTheirOwnPersonAlone) {
  const Uuid run = begin(students[0]).line.run.id;
  EXPECT_EQ(code_of([&] { act(run, 1, kLook, students[1]); }), "not_yours");
  EXPECT_EQ(code_of([&] { act(run, 1, kLook, teacher); }), "not_yours");
  EXPECT_EQ(code_of([&] { begin(visitor); }), "visitor");
  EXPECT_EQ(code_of([&] { practice->run(id()); }), "unknown_run");
}

TEST_F(PracticeRuns, AreForgottenByTheBookWhereTheShopKnowsThemNot) {
  book.keep({1, kLook, "{}"}, {.run_id = id(), .acts = 1, .view_json = "{}", .at = clock});
  start();
  EXPECT_TRUE(book.open_runs().empty());
}

TEST_F(PracticeRuns, GoOnSideBySideWhereMoreAreInUseThanAreHeld) {
  start(1);
  const Uuid runs[] = {begin(students[0], 3).line.run.id, begin(students[1], 3).line.run.id};
  std::vector<std::thread> hands;
  for (const Uuid& run : runs) {
    hands.emplace_back([&, run, who = practice->person_of(run)] {
      for (std::int64_t k = 1; k <= 8; ++k) practice->act(run, {k, kWait}, who);
    });
  }
  for (std::thread& one : hands) one.join();
  for (const Uuid& run : runs) EXPECT_EQ(practice->run(run).acts.size(), 8U);
  EXPECT_EQ(practice->run(runs[0]).line.run.view_json, practice->run(runs[1]).line.run.view_json);
}

TEST_F(PracticeRuns, TellWhoListensThatTheyWentOn) {
  std::vector<Uuid> told;
  practice->on_change([&](const Uuid& run) { told.push_back(run); });
  const Uuid run = begin(students[0]).line.run.id;
  act(run, 1, kLook);
  EXPECT_EQ(told, (std::vector<Uuid>{run, run}));
}

TEST_F(PracticeRuns, CountTheFirstOfAnExerciseAndNoUnsafeOne) {
  const Uuid first = begin(students[0], 11, 0).line.run.id;
  act(first, 1, kDecide);
  act(first, 2, kFinish);
  const PracticeRun kept = practice->run(first).line.run;
  ASSERT_TRUE(kept.points);
  EXPECT_TRUE(practice->has_ended(first, students[0]));
  EXPECT_FALSE(practice->has_ended(first, students[1]));
  const auto best = practice->best_points();
  EXPECT_EQ(best.contains(students[0]), *kept.safe);
  if (*kept.safe) {
    EXPECT_EQ(best.at(students[0]), *kept.points);
  }
  const Uuid again = begin(students[0], 11, 0).line.run.id;
  act(again, 1, kLook);
  act(again, 2, kDecide);
  act(again, 3, kFinish);
  EXPECT_EQ(practice->best_points(), best);
}

TEST_F(PracticeRuns, CountTheBestOfSeveralExercisesForEachPerson) {
  std::map<Uuid, double> best;
  for (const Uuid& student : students) {
    for (std::int64_t seed = 11; seed < 15; ++seed) {
      const Uuid run = begin(student, seed, 0).line.run.id;
      act(run, 1, seed % 2 == 0 ? kDecide : R"({"do":"decide","action":"replace"})");
      act(run, 2, kFinish);
      const PracticeRun kept = practice->run(run).line.run;
      if (*kept.safe) best[student] = std::max(best[student], *kept.points);
    }
  }
  begin(students[0], 20, 0);
  EXPECT_FALSE(best.empty());
  EXPECT_EQ(practice->best_points(), best);
}

TEST_F(PracticeRuns, HaveSetsThatStandInMemoryAsInTheJournalHoweverTheyCome) {
  const Uuid set = id();
  practice->put_set(set, {.name = "Rust"}, teacher);
  for (int round = 0; round < 40; ++round) {
    std::vector<std::thread> teachers;
    for (int k = 0; k < 3; ++k) {
      teachers.emplace_back([&, k] { practice->put_set(set, {.name = "Rust", .seed = 3 * round + k}, teacher); });
    }
    for (std::thread& one : teachers) one.join();
    ASSERT_EQ(practice->sets(), practice_store->sets().all());
  }
}

TEST_F(PracticeRuns, TakeTheFaultsOfASetThatIsOpenToThem) {
  const Uuid set = id();
  NewPracticeSet wanted{.name = "Find it", .seed = 5, .difficulty = 2, .faults = std::vector<std::string>{"wobble"}};
  EXPECT_EQ(code_of([&] { practice->put_set(set, wanted, students[0]); }), "needs_teacher");
  practice->put_set(set, wanted, teacher);
  const NewPracticeRun run{.difficulty = 0, .set_id = set};
  EXPECT_EQ(code_of([&] { practice->begin(run, students[0]); }), "unknown_set");
  EXPECT_EQ(practice->begin(run, teacher).line.run.faults, wanted.faults);
  wanted.open = true;
  practice->put_set(set, wanted, teacher);
  const PracticeFile begun = practice->begin(run, students[0]);
  EXPECT_EQ(begun.line.run.difficulty, 2);
  EXPECT_EQ(begun.line.set_name, "Find it");
  act(begun.line.run.id, 1, kLook);
  EXPECT_EQ(practice->begin(run, students[0]).line.run.id, begun.line.run.id);
  start();
  EXPECT_EQ(practice->sets().size(), 1U);
  EXPECT_EQ(practice->runs().lines.size(), 2U);
  EXPECT_EQ(practice->runs({.person_id = students[0]}).lines.size(), 1U);
  EXPECT_EQ(practice->runs({.live_since = clock + std::chrono::seconds(1)}).lines.size(), 0U);
}

TEST_F(PracticeRuns, GoOnToWhatTheMarkProposesWithTheFaultsThatItNames) {
  const Uuid first = begin(students[0], 9).line.run.id;
  act(first, 1, kDecide);
  act(first, 2, kFinish);
  const Json next = parse_json(practice->run(first).mark_json)["next"];
  const auto seed = next["seed"].get<std::int64_t>(), difficulty = next["difficulty"].get<std::int64_t>();
  const auto faults = begin(students[0], seed, difficulty).line.run.faults;
  EXPECT_EQ(faults ? Json(*faults) : Json(), next["faults"]);
  EXPECT_FALSE(begin(students[1], seed, difficulty).line.run.faults);
}

TEST(PracticeActs, HaveOneTextHoweverTheyCame) {
  const auto text = [](const std::string& json) { return act_to_json(act_from_json(parse_json(json), "act")).dump(); };
  EXPECT_EQ(text(R"({"points":12,"radius_mm":90,"do":"read_runout","side":"inboard"})"),
            text(R"({"do":"read_runout","side":"inboard","radius_mm":90.0})"));
  EXPECT_NE(text(R"({"do":"band","on":true})"), text(R"({"do":"band","on":false})"));
  EXPECT_EQ(text(R"({"do":"mount_part","pieces":["a","b"]})"),
            R"({"do":"mount_part","pieces":["a","b"],"turn_deg":0.0,"nut_tight":true})");
  EXPECT_EQ(text(R"({"do":"wash"})"), R"({"do":"wash"})");
}

TEST(PracticeActs, RecordedBeforeTheHandHadAChoiceReadAsTheRightOne) {
  const auto read = [](const std::string& json) { return act_from_json(parse_json(json), "act"); };
  const std::string measure = R"({"do":"measure","instrument_id":"micrometer_fine","radius_mm":90.0,"angle_deg":10.0)";
  EXPECT_TRUE(std::get<practice::Measure>(read(measure + "}")).ratchet);
  EXPECT_FALSE(std::get<practice::Measure>(read(measure + R"(,"ratchet":false})")).ratchet);
  const std::string refit = R"({"do":"refit","position":1,"hub_cleaned":true)";
  EXPECT_TRUE(std::get<practice::Refit>(read(refit + "}")).nuts_in_star);
  EXPECT_FALSE(std::get<practice::Refit>(read(refit + R"(,"nuts_in_star":false})")).nuts_in_star);
}

}  // namespace
}  // namespace brakewright::shop
