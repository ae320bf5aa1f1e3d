#include "core/drum/cut_check.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "core/input_error.hpp"

namespace brakewright::drum {
namespace {

constexpr double kInch_mm = 25.4;

/// Four diameters at each of two depths; oval by so much between 0 and 90 degrees, and so much wider at the open edge.
Drum read(double mean_mm, double oval_mm = 0, double bell_mm = 0) {
  Drum drum;
  drum.name = "left";
  for (const double depth : {10.0, 50.0}) {
    for (int i = 0; i < 4; ++i) {
      const double ends = i == 0 ? 0.5 : i == 2 ? -0.5 : 0;
      drum.readings.push_back({depth, 45.0 * i, {mean_mm + ends * oval_mm + (depth < 20 ? bell_mm : 0)}});
    }
  }
  drum.gauge = {.resolution_mm = 0.01, .mpe_mm = 0.01, .repeatability_mm = 0.004};
  return drum;
}

/// Limits of TM 9-2320-289 for the drum of 11.15 in: 0.060 in over may be turned to, 0.090 in over is scrap.
Limits limits() {
  Limits limits;
  limits.machine_to = LengthLimit{11.21 * kInch_mm, "TM289"};
  limits.discard = LengthLimit{11.24 * kInch_mm, "TM289"};
  limits.out_of_round = LengthLimit{0.0762, "TM279"};
  limits.taper = LengthLimit{0.1, "test"};
  return limits;
}

CutCheckInput turned(double before_mm, double after_mm) {
  CutCheckInput input{.before = read(before_mm, 0.3), .after = read(after_mm)};
  input.after.limits = limits();
  input.draws.count = 2000;
  return input;
}

const AfterCheck& check_of(const CutCheck& check, const std::string& code) {
  const auto found =
      std::find_if(check.checks.begin(), check.checks.end(), [&](const AfterCheck& one) { return one.code == code; });
  EXPECT_NE(found, check.checks.end()) << code;
  return *found;
}

// By hand: 284.0 to 284.4 mm is 400 um on the diameter; 9 marks of 25.4 um go on the radius and make 457.2 um of it.
TEST(DrumCut, WhatWasTakenIsOnTheDiameterAndTheMarksOnTheRadius) {
  CutCheckInput input = turned(284.0, 284.4);
  input.marks = 9;
  const CutCheck check = check_drum_cut(input);
  EXPECT_NEAR(check.taken_mean_um, 400, 1e-6);
  EXPECT_NEAR(check.taken_min_um, 250, 1e-6);
  EXPECT_NEAR(check.taken_max_um, 550, 1e-6);
  EXPECT_NEAR(*check.planned_on_radius_um, 228.6, 1e-9);
  EXPECT_NEAR(*check.planned_um, 457.2, 1e-9);
  EXPECT_NEAR(*check.difference_um, -57.2, 1e-6);
  EXPECT_EQ(check.agrees_with_plan, true);
  ASSERT_EQ(check.taken.size(), 8U);
  EXPECT_DOUBLE_EQ(check.taken[1].angle_deg, 45);
  EXPECT_NEAR(check.taken[4].depth_mm, 50, 1e-9);
  EXPECT_NEAR(check.taken[0].before_mm, 284.15, 1e-9);
}

TEST(DrumCut, ADrumWithinAllItsLimitsPasses) {
  const CutCheck check = check_drum_cut(turned(284.0, 284.4));
  EXPECT_EQ(check.outcome, Outcome::pass);
  EXPECT_EQ(check.checks.size(), 4U);
  const AfterCheck& size = check_of(check, "machine_to");
  EXPECT_NEAR(size.value, 284.4, 1e-9);
  EXPECT_NEAR(size.limit, 284.734, 1e-9);
  EXPECT_GT(size.p, 0.999);
  EXPECT_NE(size.text.find("284.40 mm at 0 degrees"), std::string::npos) << size.text;
  EXPECT_NE(size.text.find("is under machine-to, 284.734 mm"), std::string::npos) << size.text;
}

TEST(DrumCut, ADrumOverMachineToFailsAndOneAtItCannotBeTold) {
  EXPECT_EQ(check_of(check_drum_cut(turned(284.0, 284.9)), "machine_to").outcome, Outcome::fail);
  EXPECT_EQ(check_of(check_drum_cut(turned(284.0, 284.9)), "discard").outcome, Outcome::pass);
  EXPECT_EQ(check_of(check_drum_cut(turned(284.0, 285.6)), "discard").outcome, Outcome::fail);
  EXPECT_EQ(check_of(check_drum_cut(turned(284.0, 284.732)), "machine_to").outcome, Outcome::cannot_tell);
}

TEST(DrumCut, OvalAndBellMouthedDrumsFailTheirOwnChecks) {
  CutCheckInput input = turned(284.0, 284.4);
  input.after.readings = read(284.4, 0.2).readings;
  CutCheck check = check_drum_cut(input);
  EXPECT_EQ(check_of(check, "out_of_round").outcome, Outcome::fail);
  EXPECT_NEAR(check_of(check, "out_of_round").value, 0.2, 1e-9);
  EXPECT_EQ(check.outcome, Outcome::fail);
  input.after.readings = read(284.4, 0, 0.2).readings;
  check = check_drum_cut(input);
  EXPECT_EQ(check_of(check, "out_of_round").outcome, Outcome::pass);
  EXPECT_EQ(check_of(check, "taper").outcome, Outcome::fail);
  EXPECT_NEAR(check.after.bell_mouth_mm, 0.2, 1e-9);
  EXPECT_EQ(check.outcome, Outcome::fail);
}

TEST(DrumCut, TaperAloneDecidesWhereNothingElseIsAsked) {
  CutCheckInput input = turned(284.0, 284.4);
  input.after.limits = {};
  EXPECT_EQ(check_drum_cut(input).outcome, Outcome::cannot_tell);
  input.after.limits.taper = LengthLimit{0.1, "test"};
  EXPECT_EQ(check_drum_cut(input).outcome, Outcome::pass);
}

TEST(DrumCut, MoreGoneThanTwiceTheMarksIsSaid) {
  CutCheckInput input = turned(284.0, 284.4);
  input.marks = 5;
  const CutCheck check = check_drum_cut(input);
  EXPECT_EQ(check.agrees_with_plan, false);
  EXPECT_EQ(check.advice.front().code, "not_as_planned");
  input.marks.reset();
  input.planned_final_mm = 284.2;
  EXPECT_NEAR(*check_drum_cut(input).difference_um, 200, 1e-6);
  EXPECT_NE(check_drum_cut(input).advice.front().text.find("200 um larger than planned"), std::string::npos);
}

TEST(DrumCut, ADiameterThatShrankIsToBeReadAgain) {
  CutCheckInput input = turned(284.0, 284.4);
  input.after.readings[6].values_mm = {283.5};
  const CutCheck check = check_drum_cut(input);
  ASSERT_EQ(check.advice.front().code, "smaller_after");
  EXPECT_NE(check.advice.front().text.find("90 degrees, 50.00 mm in"), std::string::npos) << check.advice.front().text;
}

TEST(DrumCut, AWarmDrumIsBroughtToTwentyDegrees) {
  CutCheckInput input = turned(284.0, 284.4);
  input.after.part_temperature_c = 60;
  // 284.4 mm of grey iron at 40 K over 20 C is 0.125 mm larger than it will be: 11e-6 per K.
  EXPECT_NEAR(check_drum_cut(input).after.mean_mm, 284.4 * (1 - 11e-6 * 40), 1e-9);
}

TEST(DrumCut, RefusalsNameTheCallersOwnFields) {
  const auto field = [](const CutCheckInput& input) {
    try {
      check_drum_cut(input);
    } catch (const InputError& refusal) {
      return refusal.code() + " " + refusal.field();
    }
    return std::string("done");
  };
  CutCheckInput input = turned(284.0, 284.4);
  input.after.readings[2].values_mm = {11.2};
  EXPECT_EQ(field(input), "out_of_range after.readings[2].values_mm[0]");
  input = turned(284.0, 284.4);
  input.before.readings.pop_back();
  EXPECT_EQ(field(input), "sizes_differ after.readings");
  input = turned(284.0, 284.4);
  input.after.gauge.mpe_mm = 2;
  EXPECT_EQ(field(input), "out_of_range after.gauge.mpe_mm");
  input = turned(284.0, 284.4);
  input.marks = -1;
  EXPECT_EQ(field(input), "out_of_range marks");
  input = turned(284.0, 284.4);
  input.before.gauge.resolution_mm = 0;
  EXPECT_EQ(field(input), "out_of_range before.gauge.resolution_mm");
}

TEST(DrumFigures, AreTheDiametersOfOneStage) {
  Drum drum = read(284.0, 0.2, 0.1);
  drum.limits = limits();
  drum.gauge.zero_error_mm = 0.02;
  const Figures figures = reduce_diameters(drum, {.count = 2000});
  EXPECT_NEAR(figures.max_mm, 284.18, 1e-9);
  EXPECT_DOUBLE_EQ(figures.max_angle_deg, 0);
  EXPECT_NEAR(figures.max_depth_mm, 10, 1e-9);
  EXPECT_NEAR(figures.out_of_round_mm, 0.2, 1e-9);
  EXPECT_NEAR(figures.taper_mm, -0.1, 1e-9);
  EXPECT_GT(*figures.p_within_machine_to, 0.999);
  EXPECT_LT(*figures.p_out_of_round_within, 0.05);
  ASSERT_EQ(figures.points.size(), 8U);
  EXPECT_NEAR(figures.points[3].mean_mm, 284.08, 1e-9);
  EXPECT_DOUBLE_EQ(figures.points[3].angle_deg, 135);
}

}  // namespace
}  // namespace brakewright::drum
