#include "shop/exchange/transfer.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

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
             .limits = {.machine_to = Limit{.value = typed(".815", Unit::in), .source = LimitSource::cast_on_part}}});
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

std::string refused_field(Store& store, const std::string& text) {
  try {
    import_export(store, text);
  } catch (const InputError& error) {
    return error.field();
  }
  return "not refused";
}

TEST(Transfer, AShopThatIsExportedAndImportedIsTheSameShopToTheLetter) {
  const auto here = store::open_in_memory();
  fill_with_everything(*here);
  const std::string text = exported(*here);
  const auto there = store::open_in_memory();
  const Imported imported = import_export(*there, text);
  EXPECT_EQ(imported.jobs_added, 2);
  EXPECT_EQ(imported.others_added, 5);
  EXPECT_TRUE(imported.renumbered.empty());
  EXPECT_EQ(exported(*there), text);
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
  EXPECT_EQ(exported_job(*there, id(10)), text);
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
