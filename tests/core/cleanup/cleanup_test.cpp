#include "core/cleanup/cleanup.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>

#include "core/input_error.hpp"

namespace brakewright {
namespace {

CleanupInput four(std::vector<double> thickness_mm, std::vector<double> outboard_um) {
  CleanupInput input;
  input.thickness_mm = std::move(thickness_mm);
  input.outboard_um = std::move(outboard_um);
  input.angles_deg = {0, 90, 180, 270};
  return input;
}

std::string refusal(const CleanupInput& input) {
  try {
    least_cleanup(input);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}

TEST(Cleanup, WobbleOnTheArborCostsItsWholePeakToValley) {
  const Cleanup cut = least_cleanup(four({22, 22, 22, 22}, {10, 0, -10, 0}));
  EXPECT_NEAR(cut.outboard_cut_um, 20, 1e-9);
  EXPECT_NEAR(cut.inboard_cut_um, 20, 1e-9);
  EXPECT_NEAR(cut.final_mm, 22 - 0.020, 1e-9);
  EXPECT_NEAR(cut.removed_mean_outboard_um, 10, 1e-9);
  EXPECT_NEAR(cut.removed_mean_inboard_um, 10, 1e-9);
  EXPECT_NEAR(cut.cheek_difference_um, 0, 1e-9);
  EXPECT_NEAR(cut.wobble_um, 20, 1e-9);
}

TEST(Cleanup, ThicknessVariationOnOneFaceCostsOnlyThatFace) {
  // Outboard carries all of the variation: the inboard face is a true plane and loses nothing.
  const Cleanup cut = least_cleanup(four({22.010, 22.000, 21.990, 22.000}, {10, 0, -10, 0}));
  EXPECT_NEAR(cut.outboard_cut_um, 20, 1e-9);
  EXPECT_NEAR(cut.inboard_cut_um, 0, 1e-9);
  EXPECT_NEAR(cut.final_mm, 21.990, 1e-9);
  EXPECT_EQ(cut.inboard_marks, 0);
  EXPECT_NEAR(cut.cheek_difference_um, 10, 1e-9);
}

TEST(Cleanup, ReckonsByHandWithScoringAndMargin) {
  CleanupInput input = four({21.2, 21.21, 21.2, 21.19}, {10, 0, -10, 0});
  input.score_outboard_um = {20};
  input.score_inboard_um = {10};
  input.margin_um = 10;
  input.dial_um_per_mark = 25.4;
  input.machine_to_mm = 20.6;
  input.discard_mm = 20.0;
  const Cleanup cut = least_cleanup(input);
  // T0 = 21.2; a = 10, 0, -10, 0; b = T - T0 - a = -10, 10, 10, -10.
  // pA = -10 - 20 - 10 = -40, cA = 10 + 40 = 50; pB = -10 - 10 - 10 = -30, cB = 10 + 30 = 40.
  EXPECT_NEAR(cut.outboard_cut_um, 50, 1e-9);
  EXPECT_NEAR(cut.inboard_cut_um, 40, 1e-9);
  EXPECT_EQ(cut.outboard_marks, 2);
  EXPECT_EQ(cut.inboard_marks, 2);
  EXPECT_NEAR(cut.final_mm, 21.2 - 0.070, 1e-9);
  // Both faces stand 10 above their planes, and four marks of 25.4 come off.
  EXPECT_NEAR(cut.final_whole_marks_mm, 21.2 + 0.020 - 0.1016, 1e-9);
  EXPECT_NEAR(*cut.over_machine_to_mm, 21.1184 - 20.6, 1e-9);
  EXPECT_NEAR(*cut.over_discard_mm, 21.1184 - 20.0, 1e-9);
  // (21.19 - 20.6) / (21.19 - 21.1184) = 8.24
  EXPECT_EQ(cut.cuts_left, 8);
}

TEST(Cleanup, ScoringAtOnePointCountsWhereItIs) {
  CleanupInput input = four({22, 22, 22, 22}, {10, 0, -10, 0});
  input.score_outboard_um = {15, 0, 0, 0};
  EXPECT_NEAR(least_cleanup(input).outboard_cut_um, 20, 1e-9) << "a groove at the high spot lies above the low one";
  input.score_outboard_um = {0, 0, 15, 0};
  EXPECT_NEAR(least_cleanup(input).outboard_cut_um, 35, 1e-9);
}

TEST(Cleanup, MarksAreRoundedUpButNotPastWhatIsWhole) {
  EXPECT_EQ(marks_for(0.3, 0.1), 3);
  EXPECT_EQ(marks_for(0.30001, 0.1), 4);
  EXPECT_EQ(marks_for(76.2, 25.4), 3);
  EXPECT_EQ(marks_for(76.3, 25.4), 4);
  EXPECT_EQ(marks_for(0, 25.4), 0);
  EXPECT_EQ(marks_for(-5, 25.4), 0);
  EXPECT_EQ(marks_for(1e-9, 25.4), 0);
}

TEST(Cleanup, APartThatWouldGoUnderMachineToHasNoCutLeft) {
  CleanupInput input = four({22, 22, 22, 22}, {10, 0, -10, 0});
  input.machine_to_mm = 21.99;
  const Cleanup cut = least_cleanup(input);
  EXPECT_LT(*cut.over_machine_to_mm, 0);
  EXPECT_EQ(cut.cuts_left, 0);
}

TEST(Cleanup, APerfectPartLosesNothingButItsMargin) {
  CleanupInput input = four({22, 22, 22, 22}, {0, 0, 0, 0});
  EXPECT_EQ(least_cleanup(input).final_mm, 22);
  EXPECT_EQ(least_cleanup(input).outboard_marks, 0);
  input.margin_um = 5;
  EXPECT_NEAR(least_cleanup(input).final_mm, 21.990, 1e-9);
}

TEST(Cleanup, AFitThroughEveryPointAgreesWithThePoints) {
  CleanupInput input;
  for (int i = 0; i < 9; ++i) {
    const double angle = 40.0 * i;
    input.angles_deg.push_back(angle);
    input.outboard_um.push_back(12 * std::cos(angle * 0.017453292519943295));
    input.thickness_mm.push_back(22 + 0.004 * std::sin(2 * angle * 0.017453292519943295));
  }
  const Cleanup points = least_cleanup(input);
  input.use_fit = true;
  const Cleanup fit = least_cleanup(input);
  EXPECT_NEAR(points.final_mm, fit.final_mm, 1e-9);
  EXPECT_NEAR(points.outboard_cut_um, fit.outboard_cut_um, 1e-6);
}

TEST(Cleanup, NonsenseIsRefusedWithItsField) {
  const CleanupInput good = four({22, 22, 22, 22}, {1, 2, 3, 4});
  CleanupInput bad = good;
  bad.outboard_um.pop_back();
  EXPECT_EQ(refusal(bad), "sizes_differ outboard_um");
  bad = good;
  bad.angles_deg.pop_back();
  EXPECT_EQ(refusal(bad), "sizes_differ angles_deg");
  bad = good;
  bad.score_inboard_um = {1, 2};
  EXPECT_EQ(refusal(bad), "sizes_differ score_inboard_um");
  bad = good;
  bad.score_outboard_um = {-1};
  EXPECT_EQ(refusal(bad), "out_of_range score_outboard_um");
  bad = good;
  bad.thickness_mm[3] = std::numeric_limits<double>::infinity();
  EXPECT_EQ(refusal(bad), "not_finite thickness_mm[3]");
  bad = good;
  bad.dial_um_per_mark = 0;
  EXPECT_EQ(refusal(bad), "out_of_range dial_um_per_mark");
  bad = good;
  bad.margin_um = -1;
  EXPECT_EQ(refusal(bad), "out_of_range margin_um");
  EXPECT_EQ(refusal({}), "too_few thickness_mm");
}

CleanupInput any_part() {
  const auto count = *rc::gen::inRange<std::size_t>(3, 17);
  CleanupInput input;
  for (std::size_t i = 0; i < count; ++i) {
    input.angles_deg.push_back(360.0 * static_cast<double>(i) / static_cast<double>(count));
    input.thickness_mm.push_back(20 + 0.001 * *rc::gen::inRange(-50, 50));
    input.outboard_um.push_back(*rc::gen::inRange(-80, 80));
  }
  input.score_outboard_um = {static_cast<double>(*rc::gen::inRange(0, 200))};
  input.margin_um = *rc::gen::inRange(0, 30);
  return input;
}

RC_GTEST_PROP(CleanupProperty, TheZeroOfTheIndicatorDoesNotMatter, ()) {
  const CleanupInput input = any_part();
  CleanupInput moved = input;
  const double zero_um = *rc::gen::inRange(-500, 500);
  for (double& value : moved.outboard_um) value += zero_um;
  const Cleanup a = least_cleanup(input);
  const Cleanup b = least_cleanup(moved);
  RC_ASSERT(std::abs(a.final_mm - b.final_mm) < 1e-9);
  RC_ASSERT(std::abs(a.outboard_cut_um - b.outboard_cut_um) < 1e-6);
  RC_ASSERT(std::abs(a.removed_mean_inboard_um - b.removed_mean_inboard_um) < 1e-6);
}

RC_GTEST_PROP(CleanupProperty, WhatIsTakenIsWhatThicknessLoses, ()) {
  const CleanupInput input = any_part();
  const Cleanup cut = least_cleanup(input);
  double mean = 0;
  for (const double value : input.thickness_mm) mean += value / static_cast<double>(input.thickness_mm.size());
  const double removed_mm = (cut.removed_mean_outboard_um + cut.removed_mean_inboard_um) / 1000;
  RC_ASSERT(std::abs(mean - removed_mm - cut.final_mm) < 1e-9);
  RC_ASSERT(cut.final_whole_marks_mm <= cut.final_mm + 1e-9 + 2e-6 * input.dial_um_per_mark);
  RC_ASSERT(cut.final_whole_marks_mm > cut.final_mm - 2 * input.dial_um_per_mark / 1000);
  RC_ASSERT(cut.final_mm <= cut.start_min_mm + 1e-9);
}

RC_GTEST_PROP(CleanupProperty, ExchangingTheSidesExchangesTheCuts, ()) {
  CleanupInput input = any_part();
  double mean = 0;
  for (const double value : input.thickness_mm) mean += value / static_cast<double>(input.thickness_mm.size());
  CleanupInput turned = input;
  for (std::size_t i = 0; i < turned.outboard_um.size(); ++i) {
    turned.outboard_um[i] = (input.thickness_mm[i] - mean) * 1000 - input.outboard_um[i];
  }
  std::swap(turned.score_outboard_um, turned.score_inboard_um);
  const Cleanup a = least_cleanup(input);
  const Cleanup b = least_cleanup(turned);
  RC_ASSERT(std::abs(a.outboard_cut_um - b.inboard_cut_um) < 1e-6);
  RC_ASSERT(std::abs(a.final_mm - b.final_mm) < 1e-9);
}

RC_GTEST_PROP(CleanupProperty, ScalingEverythingScalesTheCut, ()) {
  const CleanupInput input = any_part();
  const double factor = 0.25 * *rc::gen::inRange(1, 12);
  CleanupInput scaled = input;
  for (double& value : scaled.outboard_um) value *= factor;
  for (double& value : scaled.score_outboard_um) value *= factor;
  for (double& value : scaled.thickness_mm) value = 20 + (value - 20) * factor;
  scaled.margin_um *= factor;
  RC_ASSERT(std::abs(least_cleanup(scaled).outboard_cut_um - factor * least_cleanup(input).outboard_cut_um) < 1e-6);
}

RC_GTEST_PROP(CleanupProperty, TurningTheIndexChangesNothing, ()) {
  const CleanupInput input = any_part();
  CleanupInput turned = input;
  const double turn_deg = *rc::gen::inRange(1, 359);
  for (double& angle : turned.angles_deg) angle = std::fmod(angle + turn_deg, 360);
  RC_ASSERT(least_cleanup(input).final_mm == least_cleanup(turned).final_mm);
}

}  // namespace
}  // namespace brakewright
