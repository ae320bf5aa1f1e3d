#include "shop/exchange/transfer.hpp"

#include <gtest/gtest.h>

#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "shop/seal.hpp"
#include "store/open.hpp"
#include "tests/store/small_shop.hpp"

namespace brakewright::shop {
namespace {

using small_shop::id;
using small_shop::kMorning;

Surroundings still() {
  return {.now = [] { return kMorning; },
          .random = [](std::span<std::uint8_t> bytes) { std::fill(bytes.begin(), bytes.end(), 7); }};
}

TypedLength typed(const char* text, Unit unit = Unit::mm) { return parse_length(text, unit).typed; }

/// What hangs on the pegboard, two edges, a band, and pieces that came and went: the cone is out, the nut back.
void put_iron(Store& store) {
  store.put(Piece{.id = id(81),
                  .name = "cone 3",
                  .kind = PieceKind::cone,
                  .hook = "B2",
                  .unit = Unit::in,
                  .bore = {25'400'000},
                  .length = {30'000'000},
                  .small = Length{50'000'000},
                  .large = Length{75'000'000},
                  .runout_um = 12.5});
  store.put(Piece{.id = id(80), .name = "nut", .kind = PieceKind::nut, .bore = {25'400'000}, .length = {20'000'000}});
  store.put(Piece{.id = id(82), .name = "never used", .bore = {25'400'000}, .length = {5'000'000}, .damping = true});
  const auto book = [&](std::uint32_t number, const Uuid& piece, BookingKind kind, std::optional<Uuid> job) {
    store.put(Booking{
        .id = id(number), .piece_id = piece, .kind = kind, .job_id = job, .by_person_id = id(1), .at = kMorning});
  };
  book(95, id(81), BookingKind::missing, std::nullopt);
  book(94, id(81), BookingKind::found, std::nullopt);
  book(93, id(80), BookingKind::taken, id(10));
  book(92, id(80), BookingKind::returned, id(10));
  book(91, id(81), BookingKind::taken, id(10));
  store.put(Insert{.id = id(83), .name = "positive, three corners"});
  store.put(Corner{.id = id(84), .insert_id = id(83), .number = 2, .used_m = 1234.5});
  store.put(Corner{.id = id(85), .insert_id = id(83), .number = 1, .condition = EdgeCondition::chipped});
  store.put(Band{.id = id(86), .name = "rubber, wide", .most_diameter = Length{320'000'000}});
  store.put(TaperPlate{.id = id(87), .name = "thin wedge", .taper_um = 76});
}

/// One part mounted, proven, planned, cut and finished.
void put_bench_work(Store& store, const Uuid& job, const Uuid& part) {
  store.put(Mount{.id = id(100),
                  .job_id = job,
                  .part_id = part,
                  .lathe_id = id(31),
                  .piece_ids = {id(81), id(80)},
                  .length_mm = 123.25,
                  .q = {0.48},
                  .why = {"about half way up", "holds it"},
                  .reason = "no clamp was free",
                  .by_person_id = id(1),
                  .at = kMorning});
  store.put(MountProof{.id = id(101),
                       .job_id = job,
                       .part_id = part,
                       .kind = ProofKind::scratch,
                       .runout = typed(".0012", Unit::in),
                       .trace_um = {0, 3.5, -2},
                       .marks = {{90, 120, 50}, {270, 100, 50}},
                       .runout_um = 30.48,
                       .part_runout_um = 12,
                       .part_high_deg = 91.5,
                       .mount_runout_um = 18,
                       .mount_high_deg = 3,
                       .allowed_um = 50,
                       .costs_um = 18,
                       .goes_on = true,
                       .by_person_id = id(1),
                       .at = kMorning});
  ForeseenPass pass{.outboard_marks = 6, .inboard_marks = 5, .rpm = 150, .feed_mm_per_rev = 0.1, .time_s = 200};
  pass.force_outboard_n = 42.5;
  pass.p_over_machine_to = 0.97;
  store.put(CutPlan{.id = id(102),
                    .job_id = job,
                    .part_id = part,
                    .lathe_id = id(31),
                    .insert_id = id(83),
                    .passes = {pass},
                    .time_s = 200,
                    .final_mm = 20.9,
                    .by_person_id = id(1),
                    .at = kMorning});
  store.put(Pass{.id = id(103),
                 .job_id = job,
                 .part_id = part,
                 .plan_id = id(102),
                 .outboard_marks = 6,
                 .inboard_marks = 5,
                 .rpm = 150,
                 .feed_mm_per_rev = 0.1,
                 .outboard_corner_id = id(84),
                 .began_at = kMorning,
                 .ended_at = kMorning + std::chrono::seconds(205),
                 .by_person_id = id(1),
                 .at = kMorning});
  store.put(BenchStep{.id = id(104),
                      .job_id = job,
                      .part_id = part,
                      .step = "band_on",
                      .pass = 1,
                      .event = StepEvent::trouble,
                      .detail = "chatter",
                      .by_person_id = id(1),
                      .taken_at = kMorning,
                      .received_at = kMorning});
  store.put(Refit{.id = id(105),
                  .job_id = job,
                  .part_id = part,
                  .position = 3,
                  .plate_id = id(87),
                  .plate_position = 1,
                  .by_person_id = id(1),
                  .at = kMorning});
}

/// The part as it was read on the car, turned by two studs, and the complaint that it came with.
void put_on_car(Store& store, const Uuid& job, const Uuid& part) {
  Job told = small_shop::job(10, 1);
  told.tyre = "205/55 R16";
  told.vehicle_mass_kg = 1480;
  told.felt_in = FeltIn::steering_wheel;
  told.felt_speed_km_per_h = 90;
  told.felt_frequency_hz = 12.5;
  store.put(told);
  Reading turned = small_shop::reading(43, job, part);
  turned.stage = Stage::on_car;
  turned.quantity = Quantity::runout_outboard;
  turned.circle = 2;
  store.put(turned);
  Reading play = small_shop::reading(44, job, part);
  play.stage = Stage::refit;
  play.quantity = Quantity::bearing_play;
  store.put(play);
  store.put(MeasuringPlan{.part_id = part, .stage = Stage::on_car, .circles_from_edge = {{10'000'000}}});
}

/// A shop with one of everything: a reading that was superseded, one withdrawn, a zero check of another job.
void fill_with_everything(Store& store) {
  small_shop::fill(store);
  const Uuid job = id(10);
  const Uuid part = id(20);
  store.transact([&] {
    Settings settings = store.settings();
    settings.shop_name = "Quarry Lane \"workshop\" <1>";
    settings.house_allowance = Length{380'000};
    settings.wear_mm_per_10000_km = 0.1;
    store.put(settings);
    store.put(
        Instrument{.id = id(30), .name = "Micrometer", .resolution = {1000}, .mpe = {4000}, .repeatability = {2000}});
    store.put(Lathe{.id = id(31), .name = "Bench 1", .dial_um_per_mark = 25.4});
    store.put(KnownPart{.id = id(32),
                        .name = "saloon front",
                        .limits = {.discard = Limit{.value = typed("20")}},
                        .last_met_at = kMorning});
    store.put(
        Part{.id = part,
             .job_id = job,
             .outer_diameter = typed("11 in"),
             .known_part_id = id(32),
             .limits = {.machine_to = Limit{.value = typed(".815", Unit::in), .source = LimitSource::cast_on_part}},
             .studs = 5,
             .hub_reading_diameter = typed("5 1/2 in")});
    store.put(MeasuringPlan{.part_id = part,
                            .circles_from_edge = {{10'000'000}, {25'000'000}},
                            .part_temperature_c = 31.5,
                            .thickness_instrument_id = id(30)});
    store.put(ZeroCheck{.id = id(33),
                        .instrument_id = id(30),
                        .error = typed("-0.002"),
                        .job_id = job,
                        .by_person_id = id(1),
                        .at = kMorning});
    Reading first = small_shop::reading(40, job, part);
    first.instrument_id = id(30);
    first.zero_check_id = id(33);
    first.confirmed_doubts = {"far_from_others", "other_unit"};
    store.put(first);
    Reading second = small_shop::reading(41, job, part);
    second.supersedes_id = first.id;
    second.value = typed("13/16\"");
    second.angle_deg = 1.0 / 3;
    store.put(second);
    Reading third = small_shop::reading(42, job, part);
    third.withdrawn_by_person_id = id(1);
    third.withdrawn_at = kMorning;
    store.put(third);
    put_on_car(store, job, part);
    store.put(Finding{.id = id(50),
                      .job_id = job,
                      .part_id = part,
                      .kind = FindingKind::rust_lip,
                      .note = "outer edge",
                      .by_person_id = id(1),
                      .at = kMorning});
    store.put(Decision{.id = id(51),
                       .job_id = job,
                       .computed_action = Action::cut,
                       .computed_p = 0.97,
                       .computed_json = R"({"action":"cut"})",
                       .action = Action::leave,
                       .reason = "the owner wants a new one",
                       .by_person_id = id(1),
                       .at = kMorning});
    put_iron(store);
    put_bench_work(store, job, part);
    store.put(Cut{.id = id(52),
                  .job_id = job,
                  .part_id = part,
                  .lathe_id = id(31),
                  .outboard_marks = 6,
                  .inboard_marks = 5,
                  .by_person_id = id(1),
                  .at = kMorning});
    store.put(
        Amendment{.id = id(53), .job_id = job, .text = "=2+3\nsecond line", .by_person_id = id(1), .at = kMorning});
    store.put(small_shop::job(11, store.next_job_number(), "another"));
    store.put(Part{.id = id(21), .job_id = id(11)});
    for (std::uint32_t k = 0; k < 5; ++k) store.append(small_shop::change(60 + k, first.id, k == 4 ? id(11) : job));
  });
}

std::string exported(Store& store) {
  Shop shop(store, still());
  return export_shop(shop).dump(1);
}

std::string exported_job(Store& store, const Uuid& job) {
  Shop shop(store, still());
  return export_job(shop, job).dump(1);
}

/// An export without its journal: where an entry stands in it is each shop's own.
Json without_journal(const std::string& text) {
  Json parcel = Json::parse(text);
  parcel.erase("changes");
  if (parcel.contains("file")) parcel["file"].erase("seq");
  if (parcel.contains("jobs")) {
    for (Json& job : parcel["jobs"]) job.erase("seq");
  }
  return parcel;
}

std::string refused_field(Store& store, const std::string& text) {
  try {
    import_export(store, text);
  } catch (const InputError& error) {
    return error.field();
  }
  return "not refused";
}

TEST(Transfer, WhatWasReadOnTheCarAndHowThePartWentBackOnItTravelsWithTheJob) {
  const auto here = store::open_in_memory();
  fill_with_everything(*here);
  for (const std::string& text : {exported(*here), exported_job(*here, id(10))}) {
    const auto there = store::open_in_memory();
    import_export(*there, text);
    const JobFile file = *there->job_file(id(10));
    EXPECT_EQ(file.job.tyre, "205/55 R16");
    EXPECT_EQ(file.job.felt_in, FeltIn::steering_wheel);
    EXPECT_EQ(file.parts.at(0).studs, 5);
    EXPECT_EQ(file.parts.at(0).hub_reading_diameter, typed("5 1/2 in"));
    EXPECT_EQ(file.refits, here->job_file(id(10))->refits);
    ASSERT_EQ(file.refits.size(), 1U);
    EXPECT_EQ(there->taper_plates(), here->taper_plates());
    const auto turned = std::find_if(file.readings.begin(), file.readings.end(),
                                     [](const Reading& one) { return one.stage == Stage::on_car; });
    ASSERT_NE(turned, file.readings.end());
    EXPECT_EQ(turned->circle, 2);
    EXPECT_EQ(file.plans.size(), 2U);
  }
}

TEST(Transfer, AShopThatIsExportedAndImportedIsTheSameShopToTheLetter) {
  const auto here = store::open_in_memory();
  fill_with_everything(*here);
  const std::string text = exported(*here);
  const auto there = store::open_in_memory();
  const Imported imported = import_export(*there, text);
  EXPECT_EQ(imported.jobs_added, 2);
  EXPECT_EQ(imported.others_added, 13);
  EXPECT_TRUE(imported.renumbered.empty());
  EXPECT_EQ(without_journal(exported(*there)), without_journal(text));
}

TEST(Transfer, APieceIsWhereItsLastBookingSaysInTheNewShopToo) {
  const auto here = store::open_in_memory();
  fill_with_everything(*here);
  const auto there = store::open_in_memory();
  import_export(*there, exported(*here));
  std::map<Uuid, PieceState> states;
  for (const Booking& booking : there->last_bookings()) states[booking.piece_id] = state_of(booking);
  EXPECT_EQ(states, (std::map<Uuid, PieceState>{{id(80), PieceState::on_board}, {id(81), PieceState::in_use}}));
  EXPECT_EQ(there->bookings_of(id(81)), here->bookings_of(id(81)));
}

TEST(Transfer, AJobCarriesThePiecesAndEdgesThatItNamesAndNoOthers) {
  const auto here = store::open_in_memory();
  fill_with_everything(*here);
  const Json job = Json::parse(exported_job(*here, id(10)));
  const auto ids = [&](const char* list) {
    std::set<std::string> found;
    for (const Json& thing : job.at(list)) found.insert(thing.at("id").get<std::string>());
    return found;
  };
  const auto named = [](std::initializer_list<std::uint32_t> numbers) {
    std::set<std::string> texts;
    for (const auto number : numbers) texts.insert(to_text(id(number)));
    return texts;
  };
  EXPECT_EQ(ids("pieces"), named({80, 81}));
  EXPECT_EQ(ids("bookings"), named({91, 92, 93}));
  EXPECT_EQ(ids("inserts"), named({83}));
  EXPECT_EQ(ids("corners"), named({84}));
  EXPECT_TRUE(job.at("bands").empty());
  EXPECT_EQ(ids("taper_plates"), named({87}));
}

TEST(Transfer, WhereAPieceIsThatHungHereBeforeIsThisShopsOwnToSay) {
  const auto here = store::open_in_memory();
  fill_with_everything(*here);
  const auto there = store::open_in_memory();
  there->transact([&] {
    there->put(small_shop::person());
    there->put(Piece{.id = id(81), .name = "our cone 3", .bore = {25'400'000}, .length = {30'000'000}});
    there->append(small_shop::change(99, id(81), std::nullopt));
  });
  import_export(*there, exported_job(*here, id(10)));
  EXPECT_TRUE(there->bookings_of(id(81)).empty());
  EXPECT_EQ(there->bookings_of(id(80)).size(), 2U);
  EXPECT_EQ(there->job_file(id(10))->mounts, here->job_file(id(10))->mounts);
}

TEST(Transfer, AnExportFromBeforeThereWasAPegboardIsTaken) {
  const auto here = store::open_in_memory();
  small_shop::fill(*here);
  Json old = Json::parse(exported(*here));
  for (const char* list : {"pieces", "bookings", "inserts", "corners", "bands", "taper_plates"}) old.erase(list);
  for (const char* list : {"mounts", "mount_proofs", "cut_plans", "passes", "bench_steps"}) old["jobs"][0].erase(list);
  const auto there = store::open_in_memory();
  import_export(*there, old.dump());
  EXPECT_EQ(without_journal(exported(*there)), without_journal(exported(*here)));
}

TEST(Transfer, ASealHoldsWhereverTheJobIsCarried) {
  const auto here = store::open_in_memory();
  fill_with_everything(*here);
  here->transact([&] {
    JobFile file = *here->job_file(id(10));
    file.job.state = JobState::sealed;
    file.job.sealed_by_person_id = id(1);
    file.job.sealed_at = kMorning;
    file.job.seal_sha256 = seal_of(file);
    here->put(file.job);
  });
  for (const std::string& text : {exported(*here), exported_job(*here, id(10))}) {
    const auto there = store::open_in_memory();
    import_export(*there, text);
    Shop shop(*there, still());
    EXPECT_TRUE(shop.seal_holds(id(10)));
  }
}

TEST(Transfer, ImportingTheSameShopTwiceAddsNothing) {
  const auto here = store::open_in_memory();
  fill_with_everything(*here);
  const std::string text = exported(*here);
  const Imported again = import_export(*here, text);
  EXPECT_EQ(again.jobs_added, 0);
  EXPECT_EQ(again.jobs_known, 2);
  EXPECT_EQ(again.others_added, 0);
  EXPECT_EQ(exported(*here), text);
}

TEST(Transfer, AJobThatIsExportedAndImportedIntoAnEmptyShopIsTheSameJob) {
  const auto here = store::open_in_memory();
  fill_with_everything(*here);
  const std::string text = exported_job(*here, id(10));
  const auto there = store::open_in_memory();
  import_export(*there, text);
  const std::string again = exported_job(*there, id(10));
  EXPECT_EQ(without_journal(again), without_journal(text));
  // Its entries come along behind the one that tells what was brought.
  const Json before = Json::parse(text)["changes"];
  Json after = Json::parse(again)["changes"];
  ASSERT_EQ(after.size(), before.size() + 1);
  EXPECT_EQ(after[0]["kind"], "brought.job_file");
  for (std::size_t k = 0; k < before.size(); ++k) {
    for (const char* name : {"id", "kind", "detail", "salt", "detail_sha256", "by_person_id", "at"}) {
      EXPECT_EQ(after[k + 1][name], before[k][name]) << name;
    }
  }
}

TEST(Transfer, AJobTakesAlongWhatItNamesAndNothingElse) {
  const auto here = store::open_in_memory();
  fill_with_everything(*here);
  here->transact([&] { here->put(small_shop::person(2, "Nobody here")); });
  const Json parcel = Json::parse(exported_job(*here, id(10)));
  EXPECT_EQ(parcel["people"].size(), 1u);
  EXPECT_EQ(parcel["instruments"].size(), 1u);
  EXPECT_EQ(parcel["lathes"].size(), 1u);
  EXPECT_EQ(parcel.at("known_parts").size(), 1u);
  EXPECT_EQ(parcel["changes"].size(), 4u);
}

TEST(Transfer, ATakenNumberIsGivenAnewAndTold) {
  const auto here = store::open_in_memory();
  fill_with_everything(*here);
  const std::string text = exported_job(*here, id(11));
  const auto there = store::open_in_memory();
  there->transact([&] {
    there->put(small_shop::person());
    there->put(small_shop::job(70, 2));
    there->put(Part{.id = id(71), .job_id = id(70)});
  });
  const Imported imported = import_export(*there, text);
  ASSERT_EQ(imported.renumbered.size(), 1u);
  EXPECT_EQ(imported.renumbered[0].was, 2);
  EXPECT_EQ(imported.renumbered[0].is, 3);
  EXPECT_EQ(there->job_file_by_number(3)->job.id, id(11));
  EXPECT_EQ(there->job_file_by_number(2)->job.id, id(70));
}

TEST(Transfer, TheNextNumberFollowsTheHighestThatCameIn) {
  const auto here = store::open_in_memory();
  fill_with_everything(*here);
  const auto there = store::open_in_memory();
  import_export(*there, exported(*here));
  std::int64_t next = 0;
  there->transact([&] { next = there->next_job_number(); });
  EXPECT_EQ(next, 3);
}

TEST(Transfer, WhatIsNoExportIsRefusedByItsField) {
  const auto here = store::open_in_memory();
  fill_with_everything(*here);
  const Json good = Json::parse(exported(*here));
  const auto there = store::open_in_memory();
  const auto spoilt = [&](const char* pointer, const Json& value) {
    Json copy = good;
    copy[Json::json_pointer(pointer)] = value;
    return refused_field(*there, copy.dump());
  };
  EXPECT_EQ(refused_field(*there, "[]"), "");
  EXPECT_EQ(refused_field(*there, "{}"), "format");
  EXPECT_EQ(spoilt("/format", "brakewright-shop-2"), "format");
  EXPECT_EQ(spoilt("/people", 3), "people");
  EXPECT_EQ(spoilt("/people/0/role", "king"), "people[0].role");
  EXPECT_EQ(spoilt("/jobs/0/parts", Json::array()), "jobs[0].parts");
  EXPECT_EQ(spoilt("/jobs/0/readings/0/job_id", to_text(id(11))), "jobs[0].readings[0].job_id");
  EXPECT_EQ(spoilt("/jobs/0/readings/0/part_id", to_text(id(21))), "jobs[0].readings[0].part_id");
  EXPECT_EQ(spoilt("/jobs/0/readings/0/value/text", "thick"), "jobs[0].readings[0].value.text");
  EXPECT_EQ(spoilt("/jobs/0/mounts/0/piece_ids/1", to_text(id(83))), "jobs[0].mounts[0].piece_ids[1]");
  EXPECT_EQ(spoilt("/jobs/0/mounts/0/lathe_id", to_text(id(30))), "jobs[0].mounts[0].lathe_id");
  EXPECT_EQ(spoilt("/jobs/0/mount_proofs/0/part_id", to_text(id(21))), "jobs[0].mount_proofs[0].part_id");
  EXPECT_EQ(spoilt("/jobs/0/cut_plans/0/insert_id", to_text(id(84))), "jobs[0].cut_plans[0].insert_id");
  EXPECT_EQ(spoilt("/jobs/0/passes/0/plan_id", to_text(id(100))), "jobs[0].passes[0].plan_id");
  EXPECT_EQ(spoilt("/jobs/0/passes/0/inboard_corner_id", to_text(id(83))), "jobs[0].passes[0].inboard_corner_id");
  EXPECT_EQ(spoilt("/jobs/0/bench_steps/0/by_person_id", to_text(id(2))), "jobs[0].bench_steps[0].by_person_id");
  EXPECT_EQ(spoilt("/corners/0/insert_id", to_text(id(80))), "corners[0].insert_id");
  EXPECT_EQ(spoilt("/corners/1/number", 2), "corners[1].number");
  EXPECT_EQ(spoilt("/bookings/0/piece_id", to_text(id(83))), "bookings[0].piece_id");
  EXPECT_EQ(spoilt("/bookings/0/job_id", to_text(id(12))), "bookings[0].job_id");
  EXPECT_EQ(there->people().size(), 0u);
}

TEST(Transfer, AnExportThatNamesWhatIsNotInItLeavesNothingBehind) {
  const auto here = store::open_in_memory();
  fill_with_everything(*here);
  Json copy = Json::parse(exported(*here));
  copy["instruments"] = Json::array();
  const auto there = store::open_in_memory();
  EXPECT_EQ(refused_field(*there, copy.dump()), "jobs[0].plans[0].thickness_instrument_id");
  EXPECT_TRUE(there->people().empty());
  EXPECT_EQ(there->last_seq(), 0);
}

}  // namespace
}  // namespace brakewright::shop
