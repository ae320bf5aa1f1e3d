#include "core/thickness/thickness.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

#include "core/input_error.hpp"

namespace brakewright {
namespace {

ThicknessInput sample(std::vector<double> values_mm) {
  ThicknessInput input;
  for (std::size_t i = 0; i < values_mm.size(); ++i) {
    input.readings.push_back({.angle_deg = 360.0 * static_cast<double>(i) / static_cast<double>(values_mm.size()),
                              .radius_mm = std::nullopt,
                              .values_mm = {values_mm[i]}});
  }
  input.micrometer = {.resolution_mm = 0.001, .mpe_mm = 0.003, .repeatability_mm = 0.001, .zero_error_mm = 0};
  input.draws = 2000;
  return input;
}

std::string refusal(const ThicknessInput& input) {
  try {
    reduce_thickness(input);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}

bool advises(const Thickness& thickness, const std::string& code) {
  for (const Advice& advice : thickness.advice) {
    if (advice.code == code) return true;
  }
  return false;
}

TEST(Thickness, GivesTheTradesFigures) {
  const Thickness found = reduce_thickness(sample({22.010, 22.004, 21.996, 22.002}));
  EXPECT_NEAR(found.mean_mm, 22.003, 1e-9);
  EXPECT_NEAR(found.min_mm, 21.996, 1e-9);
  EXPECT_EQ(found.min_angle_deg, 180);
  EXPECT_NEAR(found.max_mm, 22.010, 1e-9);
  EXPECT_EQ(found.max_angle_deg, 0);
  EXPECT_NEAR(found.variation_mm, 0.014, 1e-9);
  EXPECT_EQ(found.taper_mm, 0);
  EXPECT_EQ(found.temperature_shift_mm, 0);
}

TEST(Thickness, SubtractsTheZeroErrorAndBringsReadingsTo20C) {
  ThicknessInput input = sample({25.014, 25.014, 25.014, 25.014});
  input.micrometer.zero_error_mm = 0.003;
  input.part_temperature_c = 60;
  const Thickness found = reduce_thickness(input);
  // 25.011 mm at 60 degrees is 25.011 / (1 + 11e-6 * 40) = 25.0000 mm at 20 degrees.
  EXPECT_NEAR(found.mean_mm, 25.011 / 1.00044, 1e-9);
  EXPECT_NEAR(found.temperature_shift_mm, 25.011 / 1.00044 - 25.011, 1e-9);
  EXPECT_TRUE(advises(found, "part_not_at_20c"));
}

TEST(Thickness, AveragesRepeatsOfASpotWhereverTheyStand) {
  ThicknessInput input = sample({22.000, 22.000, 22.000, 22.000});
  input.readings[1].values_mm = {22.004, 22.002};
  input.readings.push_back({.angle_deg = 90, .radius_mm = std::nullopt, .values_mm = {22.003}});
  const Thickness found = reduce_thickness(input);
  EXPECT_EQ(found.points.size(), 4U);
  EXPECT_EQ(found.points[1].count, 3U);
  EXPECT_NEAR(found.max_mm, 22.003, 1e-9);
}

TEST(Thickness, TakesTaperFromOutermostLessInnermostAndVariationOfTheWorstCircle) {
  ThicknessInput input = sample({22.000, 22.002, 22.000, 22.002});
  for (ThicknessPoint& reading : input.readings) reading.radius_mm = 140;
  for (int i = 0; i < 4; ++i) {
    input.readings.push_back({.angle_deg = 90.0 * i, .radius_mm = 100, .values_mm = {i == 2 ? 21.990 : 21.998}});
  }
  const Thickness found = reduce_thickness(input);
  EXPECT_NEAR(found.taper_mm, 22.001 - 21.996, 1e-9);
  EXPECT_NEAR(found.variation_mm, 0.008, 1e-9);
  EXPECT_EQ(found.variation_radius_mm, 100);
  EXPECT_EQ(found.min_radius_mm, 100);
  ASSERT_EQ(found.circles.size(), 2U);
  EXPECT_EQ(found.circles[0].radius_mm, 100);
}

TEST(Thickness, UncertaintyOfTheLowestAddsItsParts) {
  ThicknessInput input = sample({22.000, 22.004, 22.004, 22.004});
  input.readings[0].values_mm = {22.000, 22.000, 22.000, 22.000};
  const Thickness found = reduce_thickness(input);
  const double expected =
      std::sqrt(0.003 * 0.003 / 3 + 0.001 * 0.001 / 12 + 0.001 * 0.001 / 4 + std::pow(11e-6 * 2 * 22.000, 2));
  EXPECT_NEAR(found.u_min_mm, expected, 1e-9);
}

TEST(Thickness, AnInstrumentTooCoarseForTheLimitCannotTell) {
  ThicknessInput input = sample({22.00, 22.01, 22.00, 22.00, 22.01, 22.00, 22.00, 22.00});
  input.micrometer = {.resolution_mm = 0.01, .mpe_mm = 0.004, .repeatability_mm = 0.002, .zero_error_mm = 0};
  input.variation_limit_mm = 0.010;
  const Thickness found = reduce_thickness(input);
  EXPECT_EQ(found.variation_verdict, Standing::cannot_tell);
  EXPECT_TRUE(advises(found, "instrument_too_coarse"));

  input = sample({22.000, 22.000, 22.000, 22.000, 22.000, 22.000, 22.000, 22.000});
  input.micrometer.repeatability_mm = 0.008;
  input.variation_limit_mm = 0.010;
  const Thickness loose = reduce_thickness(input);
  EXPECT_EQ(loose.variation_verdict, Standing::cannot_tell);
  EXPECT_TRUE(advises(loose, "instrument_too_coarse"));
}

TEST(Thickness, AStepAsLargeAsTheLimitIsNeverWithinIt) {
  ThicknessInput input = sample({22.00, 22.00, 22.00, 22.00, 22.00, 22.00, 22.00, 22.00});
  input.micrometer = {.resolution_mm = 0.025, .mpe_mm = 0.004, .repeatability_mm = 0.0001, .zero_error_mm = 0};
  input.variation_limit_mm = 0.0127;
  EXPECT_EQ(reduce_thickness(input).variation_verdict, Standing::cannot_tell);
}

TEST(Thickness, AFineInstrumentDecidesClearCases) {
  ThicknessInput input = sample({22.000, 22.001, 22.002, 22.001, 22.000, 21.999, 21.998, 21.999});
  input.variation_limit_mm = 0.020;
  EXPECT_EQ(reduce_thickness(input).variation_verdict, Standing::within);
  input = sample({22.020, 22.014, 22.000, 21.986, 21.980, 21.986, 22.000, 22.014});
  input.variation_limit_mm = 0.020;
  const Thickness worn = reduce_thickness(input);
  EXPECT_EQ(worn.variation_verdict, Standing::outside);
  EXPECT_LT(*worn.p_variation_within, 0.001);
}

TEST(Thickness, RepeatsThatScatterMoreThanStatedAreBelieved) {
  ThicknessInput input = sample({22.000, 22.000, 22.000, 22.000, 22.000, 22.000});
  for (std::size_t i = 0; i < input.readings.size(); ++i) input.readings[i].values_mm = {21.980, 22.000, 22.020};
  const Thickness loose = reduce_thickness(input);
  EXPECT_TRUE(advises(loose, "repeats_scatter"));
  EXPECT_GT(loose.true_variation_mm.high95, 0.010);
}

TEST(Thickness, AsksAboutALostTurnOfTheThimble) {
  const Thickness found = reduce_thickness(sample({22.001, 22.000, 22.500, 22.002, 22.001, 22.000}));
  EXPECT_TRUE(advises(found, "thimble_turn"));
  EXPECT_FALSE(advises(reduce_thickness(sample({22.001, 22.000, 22.020, 22.002})), "thimble_turn"));
}

TEST(Thickness, FourPointsAreToldWhatTheyAreBlindTo) {
  const Thickness found = reduce_thickness(sample({22.000, 22.001, 22.000, 22.001}));
  EXPECT_EQ(found.blind_orders.front(), 2);
  EXPECT_TRUE(advises(found, "more_points"));
}

TEST(Thickness, NonsenseIsRefusedWithItsPath) {
  const ThicknessInput good = sample({22.000, 22.001, 22.000, 22.001});
  ThicknessInput bad = good;
  bad.readings[2].values_mm[0] = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(refusal(bad), "not_finite readings[2].values_mm[0]");
  bad = good;
  bad.readings[1].values_mm = {22.0, -22.0};
  EXPECT_EQ(refusal(bad), "out_of_range readings[1].values_mm[1]");
  bad = good;
  bad.readings[3].angle_deg = 360;
  EXPECT_EQ(refusal(bad), "out_of_range readings[3].angle_deg");
  bad = good;
  bad.readings[0].values_mm.clear();
  EXPECT_EQ(refusal(bad), "too_few readings[0].values_mm");
  bad = good;
  bad.readings[0].radius_mm = 120;
  EXPECT_EQ(refusal(bad), "sizes_differ readings[1].radius_mm");
  bad = good;
  bad.readings.resize(2);
  EXPECT_EQ(refusal(bad), "too_few readings");
  bad = good;
  bad.micrometer.resolution_mm = 0;
  EXPECT_EQ(refusal(bad), "out_of_range micrometer.resolution_mm");
  bad = good;
  bad.part_temperature_c = 900;
  EXPECT_EQ(refusal(bad), "out_of_range part_temperature_c");
  bad = good;
  bad.draws = 5;
  EXPECT_EQ(refusal(bad), "out_of_range draws");
  EXPECT_EQ(refusal(good), "accepted");
}

std::vector<double> any_values() {
  const auto count = *rc::gen::inRange<std::size_t>(3, 13);
  std::vector<double> values;
  for (std::size_t i = 0; i < count; ++i) values.push_back(20 + 0.001 * *rc::gen::inRange(0, 60));
  return values;
}

RC_GTEST_PROP(ThicknessProperty, AConstantShiftsTheThicknessAndNothingElse, ()) {
  const std::vector<double> values = any_values();
  const double shift_mm = 0.001 * *rc::gen::inRange(-500, 500);
  std::vector<double> shifted = values;
  for (double& value : shifted) value += shift_mm;
  ThicknessInput one = sample(values);
  ThicknessInput two = sample(shifted);
  one.draws = two.draws = 400;
  const Thickness a = reduce_thickness(one);
  const Thickness b = reduce_thickness(two);
  RC_ASSERT(std::abs(b.min_mm - a.min_mm - shift_mm) < 1e-9);
  RC_ASSERT(std::abs(b.variation_mm - a.variation_mm) < 1e-9);
  RC_ASSERT(std::abs(b.true_variation_mm.median - a.true_variation_mm.median) < 2e-5);
}

RC_GTEST_PROP(ThicknessProperty, TurningTheIndexTurnsTheAnswer, ()) {
  const std::vector<double> values = any_values();
  const double turn_deg = *rc::gen::inRange(1, 359);
  ThicknessInput one = sample(values);
  ThicknessInput two = one;
  one.draws = two.draws = 4000;
  for (ThicknessPoint& reading : two.readings) reading.angle_deg = std::fmod(reading.angle_deg + turn_deg, 360);
  const Thickness a = reduce_thickness(one);
  const Thickness b = reduce_thickness(two);
  RC_ASSERT(std::abs(std::remainder(b.min_angle_deg - a.min_angle_deg - turn_deg, 360)) < 1e-6);
  RC_ASSERT(std::abs(a.harmonics[0].amplitude_um - b.harmonics[0].amplitude_um) < 1e-6);
  const double width = a.true_variation_mm.high95 - a.true_variation_mm.low95;
  RC_ASSERT(std::abs(a.true_variation_mm.median - b.true_variation_mm.median) <= 0.1 * width + 1e-6);
}

RC_GTEST_PROP(ThicknessProperty, EveryAnswerIsAFiniteNumber, ()) {
  ThicknessInput input = sample(any_values());
  input.draws = 200;
  input.micrometer.resolution_mm = *rc::gen::element(0.0001, 0.001, 0.00254, 0.01, 0.1);
  input.micrometer.repeatability_mm = *rc::gen::element(0.0, 0.0005, 0.003, 0.1);
  input.variation_limit_mm = *rc::gen::element(0.001, 0.0127, 1.0);
  input.discard_mm = *rc::gen::element(1.0, 20.0, 900.0);
  const Thickness found = reduce_thickness(input);
  const std::vector<double> numbers = {found.mean_mm,
                                       found.u_min_mm,
                                       found.true_variation_mm.low95,
                                       found.true_variation_mm.high95,
                                       *found.p_variation_within,
                                       *found.p_min_above_discard};
  for (const double number : numbers) RC_ASSERT(std::isfinite(number));
  RC_ASSERT(found.true_variation_mm.low95 <= found.true_variation_mm.median);
  RC_ASSERT(found.true_variation_mm.median <= found.true_variation_mm.high95);
}

}  // namespace
}  // namespace brakewright
