#include "shop/states.hpp"
#include "tests/shop/classroom.hpp"

namespace brakewright::shop {
namespace {

using Readings = Classroom;
using Codes = std::vector<std::string>;

TEST_F(Readings, AReadingKeepsItsTextInstrumentAndZeroCheck) {
  const auto file = open();
  const auto zero = shop.add_zero_check(id(), micrometer, "0.002", Unit::mm, file.job.id, teacher);
  const auto reading = add(file, figure(file, 2, "21,503"));
  EXPECT_EQ(reading.value.text, "21,503");
  EXPECT_EQ(reading.value.value.nm, 21'503'000);
  EXPECT_EQ(reading.instrument_id, micrometer);
  EXPECT_EQ(reading.zero_check_id, zero.id);
  EXPECT_DOUBLE_EQ(reading.angle_deg, 90);
}

TEST_F(Readings, SentTwiceAReadingIsStoredOnceAndAnotherWithItsIdIsRefused) {
  const auto file = open();
  const auto sent = figure(file, 0, "21.5");
  const auto stored = add(file, sent);
  const auto seq = shop.last_seq();
  EXPECT_EQ(add(file, sent), stored);
  EXPECT_EQ(shop.last_seq(), seq);
  auto other = sent;
  other.text = "21.6";
  EXPECT_EQ(refusal([&] { add(file, other); }), "id_taken");
  const auto elsewhere = open();
  EXPECT_EQ(refusal([&] { add(elsewhere, sent); }), "id_taken");
}

TEST_F(Readings, ATrialStoresNothingAndRefusesInTheSameWords) {
  const auto file = open();
  const auto seq = shop.last_seq();
  EXPECT_EQ(refusal([&] { shop.check_reading(file.job.id, figure(file, 0, "21.5"), teacher); }), "done");
  EXPECT_EQ(refusal([&] { shop.check_reading(file.job.id, figure(file, 0, "ten"), teacher); }), "not_a_length");
  EXPECT_EQ(refusal([&] { shop.check_reading(file.job.id, figure(file, 9, "21.5"), teacher); }), "out_of_range");
  EXPECT_EQ(refusal([&] { shop.check_reading(file.job.id, figure(file, 0, "-3"), teacher); }), "doubtful_reading");
  EXPECT_EQ(shop.last_seq(), seq);
}

TEST_F(Readings, ALaterReadingSupersedesAndUndoBringsBackTheEarlierOne) {
  const auto file = open();
  const auto first = add(file, figure(file, 0, "21.5"));
  auto again = figure(file, 0, "21.52");
  again.supersedes_id = first.id;
  const auto second = add(file, again);
  using enum ReadingState;
  EXPECT_EQ(states_of(shop.job_file(file.job.id).readings), (std::vector{superseded, current}));
  shop.withdraw_reading(file.job.id, second.id, teacher);
  EXPECT_EQ(states_of(shop.job_file(file.job.id).readings), (std::vector{current, withdrawn}));
  const auto seq = shop.last_seq();
  shop.withdraw_reading(file.job.id, second.id, teacher);
  EXPECT_EQ(shop.last_seq(), seq);
}

TEST_F(Readings, AReadingSupersedesOnlyOneOfItsOwnSpot) {
  const auto file = open();
  auto other = figure(file, 1, "21.5");
  other.supersedes_id = add(file, figure(file, 0, "21.5")).id;
  EXPECT_EQ(refusal([&] { add(file, other); }), "other_spot");
  other.supersedes_id = id();
  EXPECT_EQ(refusal([&] { add(file, other); }), "unknown_reading");
}

TEST_F(Readings, ATabletWhoseClockIsAheadDoesNotTakeReadingsInTheFuture) {
  const auto file = open();
  auto early = figure(file, 0, "21.5");
  early.taken_at = clock + std::chrono::hours(3);
  EXPECT_EQ(add(file, early).taken_at, clock);
  auto late = figure(file, 1, "21.5");
  late.taken_at = clock - std::chrono::minutes(3);
  EXPECT_EQ(add(file, late).taken_at, clock - std::chrono::minutes(3));
}

TEST_F(Readings, WhatLooksWrongIsAskedAboutWithWhatItMayBe) {
  const auto file = open();
  for (std::int64_t point = 0; point < 4; ++point) add(file, figure(file, point, "21.5" + std::to_string(point)));
  const struct {
    const char* text;
    const char* code;
    std::int64_t suggestion_nm;
  } cases[] = {
      {"0.846", "other_unit", 21'488'400},                                       // inches typed as millimetres
      {"22.012", "lost_turn", 21'512'000},                                       // one turn of 0.5 mm
      {"21.012", "lost_turn", 21'512'000}, {"20.512", "lost_turn", 21'512'000},  // two turns
      {"215.12", "ten_times", 21'512'000}, {"2.1512", "ten_times", 21'512'000}, {"-21.512", "below_zero", 21'512'000},
      {"21.90", "far_from_others", 0},     {"21.10", "far_from_others", 0},
  };
  for (const auto& expected : cases) {
    try {
      add(file, figure(file, 5, expected.text));
      ADD_FAILURE() << expected.text << " was taken";
    } catch (const DoubtfulReading& refusal) {
      ASSERT_EQ(refusal.doubts().size(), 1U) << expected.text;
      const Doubt& doubt = refusal.doubts()[0];
      EXPECT_EQ(doubt.code, expected.code) << expected.text;
      EXPECT_NE(doubt.message.find('?'), std::string::npos) << doubt.message;
      EXPECT_EQ(doubt.suggestion ? doubt.suggestion->value.nm : 0, expected.suggestion_nm) << expected.text;
    }
  }
  EXPECT_EQ(shop.job_file(file.job.id).readings.size(), 4U);
}

TEST_F(Readings, AnInchMicrometerLosesAFortiethOfAnInchInATurn) {
  const auto file = open();
  for (std::int64_t point = 0; point < 3; ++point) {
    auto reading = figure(file, point, "0.846" + std::to_string(point));
    reading.default_unit = Unit::in;
    add(file, reading);
  }
  auto lost = figure(file, 4, "0.8712");
  lost.default_unit = Unit::in;
  EXPECT_EQ(doubted(file, lost), Codes{"lost_turn"});
  auto metric = figure(file, 4, "21.49");
  metric.default_unit = Unit::in;  // typed in millimetres with the tablet set to inches
  EXPECT_EQ(doubted(file, metric), Codes{"other_unit"});
}

TEST_F(Readings, TheVeryFirstReadingIsHeldAgainstTheLimits) {
  const auto file = open();
  EXPECT_EQ(doubted(file, figure(file, 0, "0.846")), Codes{"other_unit"});
  EXPECT_EQ(doubted(file, figure(file, 0, "22.9")), Codes{"thicker_than_new"});
  EXPECT_EQ(doubted(file, figure(file, 0, "0")), Codes{"below_zero"});
  EXPECT_EQ(doubted(file, figure(file, 0, "21.6")), Codes{});
}

TEST_F(Readings, ThickerAfterTheCutThanBeforeIsAskedAbout) {
  const auto file = open();
  measure(file, 21.5, 0.02);
  EXPECT_EQ(doubted(file, figure(file, 4, "21.53", Stage::after)), Codes{"thicker_than_before"});
  EXPECT_EQ(doubted(file, figure(file, 4, "21.30", Stage::after)), Codes{});
}

TEST_F(Readings, TheSameFigureTwiceWithinAMomentIsAskedAbout) {
  const auto file = open();
  auto first = figure(file, 0, "21.512");
  first.taken_at = clock;
  add(file, first);
  auto bounced = figure(file, 1, "21.512");
  bounced.taken_at = *first.taken_at + std::chrono::milliseconds(200);
  EXPECT_EQ(doubted(file, bounced), Codes{"same_twice"});
  auto unhurried = figure(file, 1, "21.512");
  unhurried.taken_at = clock;
  EXPECT_EQ(doubted(file, unhurried), Codes{});
}

TEST_F(Readings, RoughnessTypedWithoutItsMicrometreIsAskedAbout) {
  const auto file = open();
  auto reading = figure(file, 0, "1.6", Stage::after);
  reading.quantity = Quantity::roughness_outboard;
  try {
    add(file, reading);
    FAIL() << "taken";
  } catch (const DoubtfulReading& refusal) {
    EXPECT_EQ(refusal.doubts().at(0).code, "other_unit");
    EXPECT_EQ(refusal.doubts()[0].suggestion->value.nm, 1'600);
  }
  reading.text = "1.6 um";
  EXPECT_EQ(doubted(file, reading), Codes{});
}

TEST_F(Readings, RunoutMayBeBelowZero) {
  const auto file = open();
  auto reading = figure(file, 1, "-0.04");
  reading.quantity = Quantity::runout_outboard;
  EXPECT_EQ(doubted(file, reading), Codes{});
}

TEST_F(Readings, WhatIsConfirmedIsKeptWithTheDoubt) {
  const auto file = open();
  for (std::int64_t point = 0; point < 3; ++point) add(file, figure(file, point, "21.5"));
  auto reading = figure(file, 3, "22.0");
  reading.confirmed = true;
  EXPECT_EQ(add(file, reading).confirmed_doubts, Codes{"lost_turn"});
  auto plain = figure(file, 4, "21.5");
  plain.confirmed = true;
  EXPECT_EQ(add(file, plain).confirmed_doubts, Codes{});
}

TEST_F(Readings, ACorrectionIsNotHeldAgainstTheSlipThatItCorrects) {
  const auto file = open();
  auto slip = figure(file, 0, "22.01");
  slip.confirmed = true;
  auto right = figure(file, 0, "21.51");
  right.supersedes_id = add(file, slip).id;
  EXPECT_EQ(doubted(file, right), Codes{});
}

TEST_F(Readings, AZeroCheckIsSmallAndKnownByItsId) {
  const Uuid check = id();
  shop.add_zero_check(check, micrometer, "-0.001", Unit::mm, {}, teacher);
  shop.add_zero_check(check, micrometer, "-0.001", Unit::mm, {}, teacher);
  EXPECT_EQ(shop.zero_checks(micrometer).size(), 1U);
  EXPECT_EQ(refusal([&] { shop.add_zero_check(check, micrometer, "0.001", Unit::mm, {}, teacher); }), "id_taken");
  EXPECT_EQ(refusal([&] { shop.add_zero_check(id(), micrometer, "25.001", Unit::mm, {}, teacher); }), "out_of_range");
}

}  // namespace
}  // namespace brakewright::shop
