#include "core/pulsation/pulsation.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>
#include <string>

#include "core/input_error.hpp"

namespace brakewright::pulsation {
namespace {

PulsationInput at(double speed_km_per_h, std::optional<double> hz, double u_hz = 0.3) {
  PulsationInput input;
  input.rolling = {.mm = 1920, .low_mm = 1880, .high_mm = 1960};
  input.observations = {{.speed_km_per_h = speed_km_per_h, .frequency_hz = hz, .u_frequency_hz = u_hz}};
  return input;
}

std::string refusal(const PulsationInput& input) {
  try {
    find_pulsation(input);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}

std::string tyre_refusal(const std::string& text) {
  try {
    read_tyre(text);
  } catch (const InputError& error) {
    return error.code();
  }
  return "accepted";
}

TEST(Tyre, SizesAreReadAsTheyStandOnTheSidewall) {
  const double expected = std::numbers::pi * (16 * 25.4 + 2 * 205 * 0.55);
  for (const char* text : {"205/55 R16", "205/55R16", "P205/55ZR16 91V", " 205 / 55 r 16 ", "205/55 R16C"}) {
    EXPECT_NEAR(read_tyre(text).free_circumference_mm, expected, 1e-9) << text;
  }
  EXPECT_EQ(read_tyre("LT245/75R16").section_mm, 245);
  EXPECT_EQ(read_tyre("225/70R19.5").rim_in, 19.5);
  const Tyre tyre = read_tyre("205/55 R16");
  EXPECT_LT(tyre.rolling_low_mm, tyre.rolling_mm);
  EXPECT_LT(tyre.rolling_high_mm, tyre.free_circumference_mm);
}

TEST(Tyre, WhatIsNoSizeIsRefused) {
  for (const char* text :
       {"", "205", "205/55", "205/55 16", "205-55R16", "x/55R16", "205/55R", "205/55R16x", "2055/55R16"}) {
    EXPECT_EQ(tyre_refusal(text), "not_a_tyre") << text;
  }
  EXPECT_EQ(tyre_refusal("20/55R16"), "out_of_range");
  EXPECT_EQ(tyre_refusal("205/5R16"), "out_of_range");
  EXPECT_EQ(tyre_refusal("205/55R99"), "out_of_range");
}

TEST(Pulsation, AFrequencyFindsItsOrder) {
  const double wheel = 90 / 3.6 / 1.92;
  for (int order = 1; order <= 4; ++order) {
    const Pulsation found = find_pulsation(at(90, order * wheel * 1.01));
    EXPECT_EQ(found.orders.front().order, order);
    EXPECT_GT(found.orders.front().probability, 0.85) << order;
    EXPECT_NEAR(*found.orders.front().off_percent, 1, 1e-6);
    EXPECT_LT(std::abs(*found.orders.front().z), 1);
  }
}

TEST(Pulsation, AFrequencyBetweenTheOrdersIsNoneOfTheWheels) {
  const Pulsation found = find_pulsation(at(90, 1.45 * 90 / 3.6 / 1.92, 0.05));
  EXPECT_EQ(found.orders.front().order, 0);
  EXPECT_EQ(found.next.front().code, "not_the_wheel");
}

TEST(Pulsation, ASecondSpeedTellsAWheelOrderFromAFixedFrequency) {
  PulsationInput input = at(90, 13, 1);
  const double before = find_pulsation(input).orders.front().probability;
  input.observations.push_back({.speed_km_per_h = 45, .frequency_hz = 6.5, .u_frequency_hz = 0.3});
  EXPECT_GT(find_pulsation(input).orders.front().probability, before);
  input.observations.back().frequency_hz = 13;
  EXPECT_EQ(find_pulsation(input).orders.front().order, 0);
}

TEST(Pulsation, TheCornerWithTheVariationOfThatOrderIsNamed) {
  PulsationInput input = at(90, 2 * 90 / 3.6 / 1.92);
  input.corners = {{.name = "front left", .front = true, .read = true, .variation = {{1, 14}, {2, 1}}},
                   {.name = "front right", .front = true, .read = true, .variation = {{1, 2}, {2, 12}}}};
  const Pulsation found = find_pulsation(input);
  EXPECT_EQ(found.corners.front().name, "front right");
  EXPECT_EQ(found.corners.front().order, 2);
  EXPECT_GT(found.corners.front().probability, 0.8);
  EXPECT_EQ(found.next.front().code, "this_corner");
  double sum = found.p_other_corner;
  for (const CornerFit& fit : found.corners) sum += fit.probability;
  EXPECT_NEAR(sum, 1, 1e-12);
}

TEST(Pulsation, WhatWasNotReadOrNotSeenIsAskedFor) {
  PulsationInput input = at(90, 4 * 90 / 3.6 / 1.92);
  input.corners = {{.name = "left", .front = true, .read = true, .variation = {{1, 1}}, .blind_orders = {2, 4}},
                   {.name = "right", .front = true}};
  std::string codes;
  for (const Advice& step : find_pulsation(input).next) codes += step.code + " ";
  EXPECT_NE(codes.find("blind_points"), std::string::npos);
  EXPECT_NE(codes.find("read_corner"), std::string::npos);
  EXPECT_EQ(find_pulsation(at(90, {})).next.front().code, "find_frequency");
  EXPECT_TRUE(find_pulsation(at(90, {})).orders.empty());
}

TEST(Pulsation, TheTableHoldsEachOrderAtEachSpeed) {
  PulsationInput input = at(90, {});
  input.speeds_km_per_h = {36, 72};
  const Pulsation found = find_pulsation(input);
  ASSERT_EQ(found.table.size(), 8U);
  EXPECT_NEAR(found.table[0].hz, 10 / 1.92, 1e-9);
  EXPECT_NEAR(found.table[7].hz, 4 * 20 / 1.92, 1e-9);
  EXPECT_LT(found.table[0].low_hz, found.table[0].hz);
}

TEST(Pulsation, GrowthIsARangeWithItsSourceAndOnlyOverTheLimit) {
  PulsationInput input = at(90, {});
  input.growth = GrowthInput{.runout_um = 120, .runout_limit_um = 50, .variation_um = 3, .variation_limit_um = 15};
  const Growth over = *find_pulsation(input).growth;
  EXPECT_EQ(over.felt_from_km, 3000);
  EXPECT_EQ(over.felt_to_km, 9656);
  EXPECT_DOUBLE_EQ(over.curve[3].high_um, 15);
  EXPECT_NE(over.source.find("no source"), std::string::npos);
  input.growth->runout_um = 40;
  const Growth under = *find_pulsation(input).growth;
  EXPECT_FALSE(under.felt_from_km.has_value());
  EXPECT_TRUE(under.curve.empty());
}

TEST(Pulsation, WearRoomIsWhatIsLeftOverTheRate) {
  PulsationInput input = at(90, {});
  input.wear = WearInput{.thickness_mm = 21, .u_mm = 0.01, .discard_mm = 20, .rate = {.mm_per_unit = 0.2}};
  const WearRoom room = *find_pulsation(input).wear;
  EXPECT_NEAR(room.median, 5, 0.2);
  EXPECT_LT(room.low95, 3.5);
  EXPECT_GT(room.high95, 7);
}

TEST(Pulsation, ACountIsAFrequencyGiveOrTakeABeat) {
  EXPECT_DOUBLE_EQ(counted(130, 10).hz, 13);
  EXPECT_GT(counted(130, 10).u_hz, counted(1300, 100).u_hz);
}

TEST(Pulsation, RefusalsNameTheField) {
  PulsationInput input = at(90, {});
  input.observations.clear();
  EXPECT_EQ(refusal(input), "too_few observations");
  EXPECT_EQ(refusal(at(0, 5)), "out_of_range observations[0].speed_km_per_h");
  EXPECT_EQ(refusal(at(90, NAN)), "not_finite observations[0].frequency_hz");
  input = at(90, 5);
  input.corners = {{.name = "", .front = true}};
  EXPECT_EQ(refusal(input), "out_of_range corners[0].name");
  input = at(90, 5);
  input.growth = GrowthInput{.runout_um = -1, .runout_limit_um = 50};
  EXPECT_EQ(refusal(input), "out_of_range growth.runout_um");
}

RC_GTEST_PROP(Pulsation, ProbabilitiesOfTheOrdersSumToOne, ()) {
  const double hz = *rc::gen::inRange(2, 1500) * 0.1, speed = *rc::gen::inRange(5, 300);
  const Pulsation found = find_pulsation(at(speed, hz, *rc::gen::inRange(1, 500) * 0.01));
  double sum = 0;
  for (const OrderFit& fit : found.orders) sum += fit.probability;
  RC_ASSERT(std::abs(sum - 1) < 1e-9);
  RC_ASSERT(found.orders.size() == 7U);
}

}  // namespace
}  // namespace brakewright::pulsation
