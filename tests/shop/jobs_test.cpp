#include "shop/json.hpp"
#include "tests/shop/classroom.hpp"

namespace brakewright::shop {
namespace {

using Jobs = Classroom;

TEST_F(Jobs, TheFirstPersonEntersThemselvesAndNobodyElseDoes) {
  const auto empty = store::open_in_memory();
  Shop fresh(*empty, {.now = [this] { return clock; }, .random = [](auto bytes) { std::ranges::fill(bytes, 7); }});
  const Uuid first = id();
  EXPECT_EQ(refusal([&] { fresh.put_person({.id = first, .name = "A"}, id()); }), "unknown_person");
  EXPECT_EQ(refusal([&] { fresh.put_person({.id = first, .name = "A"}, first); }), "done");
  EXPECT_EQ(refusal([&] { fresh.put_person({.id = id(), .name = "B"}, last_id); }), "unknown_person");
}

TEST_F(Jobs, AJobGetsItsNumberStateTimesAndPlansFromTheShop) {
  Job job{.id = id(), .number = 77, .state = JobState::sealed, .vehicle = "grey van", .version = 9};
  const auto opened = shop.open_job(job, {{.id = id()}}, teacher);
  EXPECT_EQ(opened.job.number, 1);
  EXPECT_EQ(opened.job.state, JobState::open);
  EXPECT_EQ(opened.job.opened_at, clock);
  EXPECT_EQ(opened.job.opened_by_person_id, teacher);
  EXPECT_EQ(opened.job.version, 1);
  ASSERT_EQ(opened.plans.size(), 1U);
  EXPECT_EQ(opened.plans[0].points, 8);
  EXPECT_EQ(open().job.number, 2);
}

TEST_F(Jobs, WhatComesBackIsWhatTheStoreHas) {
  const auto file = open(2);
  measure(file, 21.5, 0.02);
  look_over(file);
  EXPECT_EQ(shop.job_file(file.job.id), *store->job_file(file.job.id));
  EXPECT_EQ(shop.job_file_by_number(file.job.number), *store->job_file(file.job.id));
}

TEST_F(Jobs, SentTwiceAJobIsOpenedOnceAndAnotherWithItsIdIsRefused) {
  const auto file = open();
  const auto seq = shop.last_seq();
  EXPECT_EQ(shop.open_job(file.job, file.parts, teacher), file);
  EXPECT_EQ(shop.last_seq(), seq);
  EXPECT_EQ(refusal([&] { shop.open_job(file.job, {{.id = id()}}, teacher); }), "id_taken");
}

TEST_F(Jobs, TwoPartsAreOfTwoSides) {
  const Job job{.id = id(), .vehicle = "grey van"};
  EXPECT_EQ(refusal([&] { shop.open_job(job, {{.id = id()}, {.id = id()}}, teacher); }), "out_of_range");
  EXPECT_EQ(refusal([&] { shop.open_job(job, {}, teacher); }), "out_of_range");
}

TEST_F(Jobs, LimitsThatChangedPlacesAreRefused) {
  const auto file = open();
  Part part = file.parts[0];
  std::swap(part.limits.machine_to, part.limits.discard);
  EXPECT_EQ(refusal([&] { shop.change_part(part, teacher); }), "limits_disagree");
  part = file.parts[0];
  part.limits.discard->value = parse_length("20", Unit::in).typed;
  EXPECT_EQ(refusal([&] { shop.change_part(part, teacher); }), "out_of_range");
}

TEST_F(Jobs, TwoTabletsCannotOverwriteEachOther) {
  const auto file = open();
  Job mine = file.job;
  mine.vehicle = "blue estate, 2.2 diesel";
  EXPECT_EQ(shop.change_job(mine, teacher).version, 2);
  Job theirs = file.job;
  theirs.brought_by = "Caretaker";
  try {
    shop.change_job(theirs, teacher);
    FAIL() << "overwritten";
  } catch (const ConflictError& conflict) {
    EXPECT_EQ(conflict.code(), "changed_meanwhile");
    EXPECT_NE(conflict.current_json().find("2.2 diesel"), std::string::npos);
  }
  Part part = file.parts[0];
  part.vented = !part.vented;
  shop.change_part(part, teacher);
  EXPECT_EQ(refusal([&] { shop.change_part(part, teacher); }), "changed_meanwhile");
}

TEST_F(Jobs, APlanStaysWhileReadingsStandOnIt) {
  const auto file = open();
  MeasuringPlan plan = file.plans[0];
  plan.points = 12;
  plan = shop.put_plan(plan, teacher);
  EXPECT_EQ(plan.version, 2);
  const auto reading = add(file, figure(file, 11, "21.5"));
  EXPECT_DOUBLE_EQ(reading.angle_deg, 330);
  MeasuringPlan coarser = plan;
  coarser.points = 8;
  EXPECT_EQ(refusal([&] { shop.put_plan(coarser, teacher); }), "readings_exist");
  MeasuringPlan warmer = plan;
  warmer.part_temperature_c = 35;
  plan = shop.put_plan(warmer, teacher);
  shop.withdraw_reading(file.job.id, reading.id, teacher);
  coarser.version = plan.version;
  EXPECT_EQ(shop.put_plan(coarser, teacher).points, 8);
}

TEST_F(Jobs, AnUnknownJobPersonOrInstrumentIsSaidSo) {
  const auto file = open();
  EXPECT_EQ(refusal([&] { shop.job_file(id()); }), "unknown_job");
  EXPECT_EQ(refusal([&] { shop.job_file_by_number(99); }), "unknown_job");
  auto reading = figure(file, 0, "21.5");
  EXPECT_EQ(refusal([&] { shop.add_reading(file.job.id, reading, id()); }), "unknown_person");
  reading.instrument_id = id();
  EXPECT_EQ(refusal([&] { add(file, reading); }), "unknown_instrument");
}

TEST_F(Jobs, EachChangeIsInTheJournalOnceWithWhoAndWhen) {
  const auto before = shop.last_seq();
  const auto file = open();
  add(file, figure(file, 0, "21.5"));
  look_over(file);
  const auto changes = shop.changes(before, 100, {});
  std::vector<std::string> kinds;
  for (const Change& change : changes) {
    kinds.push_back(change.kind);
    EXPECT_EQ(change.by_person_id, teacher);
    EXPECT_EQ(change.job_id, file.job.id);
  }
  EXPECT_EQ(kinds, (std::vector<std::string>{"job.opened", "reading.added", "finding.added"}));
  EXPECT_EQ(shop.job_file(file.job.id).seq, shop.last_seq());
}

TEST_F(Jobs, ListenersHearOfWhatWasCommittedInOrderAndMayRead) {
  std::vector<std::int64_t> heard;
  shop.on_change([&](const Change& change) {
    heard.push_back(change.seq);
    EXPECT_GE(shop.last_seq(), change.seq);
  });
  const auto first = shop.last_seq() + 1;
  const auto file = open();
  EXPECT_EQ(refusal([&] { add(file, figure(file, 0, "ten")); }), "not_a_length");
  add(file, figure(file, 0, "21.5"));
  EXPECT_EQ(heard, (std::vector<std::int64_t>{first, first + 1}));
}

TEST_F(Jobs, ABatchIsHeardOfWhenAllOfItStandsAndNotAtAllWhenItFails) {
  const auto file = open();
  std::vector<std::string> heard;
  shop.on_change([&](const Change& change) { heard.push_back(change.kind); });
  EXPECT_THROW(shop.batch([&] {
    add(file, figure(file, 0, "21.5"));
    throw std::runtime_error("dropped");
  }),
               std::runtime_error);
  EXPECT_TRUE(heard.empty());
  EXPECT_TRUE(shop.job_file(file.job.id).readings.empty());
  shop.batch([&] {
    add(file, figure(file, 0, "21.5"));
    EXPECT_TRUE(heard.empty());
    add(file, figure(file, 1, "21.51"));
  });
  EXPECT_EQ(heard.size(), 2U);
  EXPECT_EQ(shop.job_file(file.job.id), *store->job_file(file.job.id));
}

TEST_F(Jobs, TheBoardSaysWhatEachJobWaitsFor) {
  const auto file = open();
  const auto waits = [&] { return shop.jobs({.state = JobState::open, .words = ""}).lines.at(0).waits_for; };
  EXPECT_EQ(waits(), WaitsFor::findings);
  look_over(file);
  EXPECT_EQ(waits(), WaitsFor::readings);
  measure(file, 21.5, 0.02);
  EXPECT_EQ(waits(), WaitsFor::decision);
  Part part = shop.job_file(file.job.id).parts[0];
  part.limits = {};
  shop.change_part(part, teacher);
  EXPECT_EQ(waits(), WaitsFor::limits);
}

TEST_F(Jobs, APartThatAFindingRulesOutNeedsNoReadings) {
  const auto file = open();
  shop.add_finding({.id = id(),
                    .job_id = file.job.id,
                    .part_id = file.parts[0].id,
                    .kind = FindingKind::crack,
                    .judgement = Judgement::reject,
                    .note = ""},
                   teacher);
  EXPECT_EQ(waits_for(shop.job_file(file.job.id)), WaitsFor::decision);
}

TEST_F(Jobs, SettingsKeepTheirVersionAndTheirMarkOfInventedData) {
  Settings settings = shop.settings();
  settings.shop_name = "Harrow Lane";
  settings.demo = true;
  const Settings stored = shop.change_settings(settings, teacher);
  EXPECT_FALSE(stored.demo);
  EXPECT_EQ(stored.version, 2);
  EXPECT_EQ(refusal([&] { shop.change_settings(settings, teacher); }), "changed_meanwhile");
}

TEST_F(Jobs, AKnownPartIsFoundByItsWords) {
  const auto file = open();
  shop.put_known_part({.id = id(), .name = "estate front, vented, 25 mm", .limits = file.parts[0].limits}, teacher);
  ASSERT_EQ(shop.known_parts("front EST", 10).size(), 1U);
  EXPECT_EQ(shop.known_parts("front EST", 10)[0].limits, file.parts[0].limits);
  EXPECT_TRUE(shop.known_parts("rear", 10).empty());
}

}  // namespace
}  // namespace brakewright::shop
