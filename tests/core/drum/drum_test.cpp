#include "core/drum/drum.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>
#include <string>

#include "core/drum/bore_plan.hpp"
#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::drum {
namespace {

LengthLimit limit(double value_mm) { return {.value_mm = value_mm, .source = "service information"}; }

/// A drum whose diameters go up and down twice a turn.
Drum oval(double mean_mm, double amplitude_mm, double taper_mm = 0) {
  Drum drum;
  drum.name = "left";
  drum.limits.nominal = limit(283.21);
  drum.limits.machine_to = limit(284.734);
  drum.limits.discard = limit(285.496);
  drum.limits.out_of_round = limit(0.1);
  for (const double depth : {5.0, 45.0}) {
    for (int i = 0; i < 8; ++i) {
      const double angle = 22.5 * i, off = amplitude_mm * std::cos(2 * (angle - 45) * std::numbers::pi / 180);
      drum.readings.push_back({.depth_mm = depth,
                               .angle_deg = angle,
                               .values_mm = {std::round(1000 * (mean_mm + off + (depth > 10 ? taper_mm : 0))) / 1000}});
    }
  }
  drum.gauge = {.resolution_mm = 0.002, .mpe_mm = 0.004, .repeatability_mm = 0.002, .zero_error_mm = 0};
  return drum;
}

DrumInput job(const Drum& drum) {
  DrumInput input;
  input.parts = {drum};
  input.draws = 2000;
  return input;
}

std::string refusal(const DrumInput& input) {
  try {
    judge_drums(input);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}

TEST(Drum, TheTradesFiguresAreThoseOfTheDiameters) {
  const Drums found = judge_drums(job(oval(283.6, 0.1, -0.05)));
  const DrumVerdict& drum = found.parts[0];
  EXPECT_NEAR(drum.max_mm, 283.7, 1e-9);
  EXPECT_EQ(drum.max_angle_deg, 45);
  EXPECT_EQ(drum.max_depth_mm, 5);
  EXPECT_NEAR(drum.out_of_round_mm, 0.2, 1e-9);
  EXPECT_NEAR(drum.bell_mouth_mm, 0.05, 1e-9);
  EXPECT_NEAR(drum.taper_mm, -0.05, 1e-9);
  ASSERT_EQ(drum.depths.size(), 2U);
  EXPECT_EQ(drum.depths[0].harmonics[0].order, 2);
  EXPECT_NEAR(drum.depths[0].harmonics[0].amplitude_um, 100, 0.5);
  EXPECT_NEAR(std::remainder(drum.depths[0].harmonics[0].phase_deg - 90, 360), 0, 0.5);
  EXPECT_EQ(drum.depths[0].blind_orders[0], 1);
  EXPECT_GT(drum.true_out_of_round_mm.high95, 0.195);
}

TEST(Drum, DepthIsOnTheRadiusAndChangeOnTheDiameterTwiceIt) {
  Drum drum = oval(283.6, 0.1);
  drum.score_um = 60;
  const DrumVerdict found = judge_drums(job(drum)).parts[0];
  EXPECT_NEAR(found.cut_on_radius_um, 100 + 60, 1e-6);
  EXPECT_DOUBLE_EQ(found.change_on_diameter_um, 2 * found.cut_on_radius_um);
  EXPECT_EQ(found.marks, 7);
  EXPECT_NEAR(found.final_mm, 283.5 + 2 * 7 * 0.0254, 1e-9);
  EXPECT_NEAR(found.true_final_mm.median, found.final_mm, 0.06);
  EXPECT_TRUE(found.runout_assumed);
}

TEST(Drum, AnOvalDrumWithRoomIsCutAndARoundOneIsLeft) {
  const Drums cut = judge_drums(job(oval(283.6, 0.1)));
  EXPECT_EQ(cut.action, Action::cut);
  EXPECT_GT(cut.p, 0.95);
  EXPECT_EQ(cut.reasons.front().code, "final_under_machine_to");
  const Drums left = judge_drums(job(oval(283.6, 0.01)));
  EXPECT_EQ(left.action, Action::leave);
  EXPECT_EQ(left.parts[0].reasons[1].code, "out_of_round_within");
}

TEST(Drum, OverTheDiscardDiameterItIsReplaced) {
  const Drums found = judge_drums(job(oval(285.6, 0.05)));
  EXPECT_EQ(found.action, Action::replace);
  EXPECT_EQ(found.reasons.front().code, "over_discard");
  EXPECT_NEAR(*found.reasons.front().value, 285.65, 1e-6);
  EXPECT_NEAR(*found.reasons.front().limit, 285.496, 1e-6);
  const Drums no_room = judge_drums(job(oval(284.7, 0.1)));
  EXPECT_EQ(no_room.action, Action::replace);
  EXPECT_EQ(no_room.reasons.front().code, "final_over_machine_to");
}

TEST(Drum, NearTheLimitItAsksForTheReadingThatWouldSettleIt) {
  Drum drum = oval(283.6, 0.05);
  drum.gauge = {.resolution_mm = 0.05, .mpe_mm = 0.05, .repeatability_mm = 0.03, .zero_error_mm = 0};
  const Drums found = judge_drums(job(drum));
  EXPECT_EQ(found.action, Action::measure_again);
  ASSERT_TRUE(found.next_measurement.has_value());
  EXPECT_EQ(found.next_measurement->question, "variation");
  for (const double angle : found.next_measurement->angles_deg) EXPECT_LT(angle, 180);
  EXPECT_EQ(found.next_measurement->text.find("micrometer"), std::string::npos);
}

TEST(Drum, MachineToUnknownIsSaidAndAHouseRuleStandsIn) {
  Drum drum = oval(283.6, 0.1);
  drum.limits.machine_to.reset();
  DrumInput input = job(drum);
  const Drums unknown = judge_drums(input);
  EXPECT_EQ(unknown.action, Action::measure_again);
  EXPECT_EQ(unknown.reasons.front().code, "machine_to_unknown");
  input.house_allowance = LengthLimit{.value_mm = 0.762, .source = "common practice, no source"};
  const Drums ruled = judge_drums(input);
  EXPECT_EQ(ruled.action, Action::cut);
  EXPECT_NEAR(ruled.parts[0].machine_to->value_mm, 285.496 - 0.762, 1e-9);
  EXPECT_TRUE(ruled.parts[0].machine_to_is_house_rule);
}

TEST(Drum, ATaperOverItsLimitCallsForACut) {
  Drum drum = oval(283.6, 0.01, -0.3);
  drum.limits.taper = limit(0.25);
  const Drums found = judge_drums(job(drum));
  EXPECT_EQ(found.action, Action::cut);
  EXPECT_LT(*found.parts[0].p_taper_within, 0.01);
}

TEST(Drum, AnIndicatorOnTheLatheBringsInTheEccentricityThatNoDiameterShows) {
  Drum drum = oval(283.6, 0.1);
  RunoutReadings trace;
  trace.carrier = Carrier::arbor;
  for (int i = 0; i < 12; ++i) {
    trace.outboard.angles_deg.push_back(30.0 * i);
    trace.outboard.values_um.push_back(150 * std::cos(i * std::numbers::pi / 6));
  }
  const double without = judge_drums(job(drum)).parts[0].true_final_mm.median;
  drum.arbor_runout = trace;
  const DrumVerdict found = judge_drums(job(drum)).parts[0];
  EXPECT_FALSE(found.runout_assumed);
  EXPECT_GT(found.true_final_mm.median, without + 0.1);
}

TEST(Drum, AWarmDrumReadsLargeAndIsBroughtToTwentyDegrees) {
  Drum drum = oval(300, 0.01);
  drum.limits = {};
  drum.limits.discard = limit(302);
  drum.part_temperature_c = 70;
  EXPECT_NEAR(judge_drums(job(drum)).parts[0].mean_mm, 300 - 0.165, 0.001);
}

TEST(Drum, BothDrumsOfAnAxleGoToOneSize) {
  DrumInput input = job(oval(283.6, 0.1));
  Drum partner = oval(283.9, 0.02);
  partner.name = "right";
  input.parts.push_back(partner);
  const Drums found = judge_drums(input);
  EXPECT_EQ(found.action, Action::cut);
  ASSERT_TRUE(found.pair.has_value());
  EXPECT_NEAR(found.pair->final_mm, std::max(found.parts[0].final_mm, found.parts[1].final_mm), 1e-12);
  EXPECT_GT(found.pair->extra_um[0], 50);
  EXPECT_EQ(found.pair->extra_um[1], 0);
  EXPECT_GT(*found.pair->p_within, 0.95);
  EXPECT_EQ(found.reasons[0].code, "partner_cut");
  EXPECT_EQ(found.reasons[1].part, "left");
}

TEST(Drum, RefusalsNameTheFieldInTheDrumsOwnWords) {
  DrumInput input = job(oval(283.6, 0.1));
  input.parts[0].readings[3].values_mm[0] = 11.165;
  EXPECT_EQ(refusal(input), "out_of_range parts[0].readings[3].values_mm[0]");
  input = job(oval(283.6, 0.1));
  input.parts[0].gauge.resolution_mm = 0;
  EXPECT_EQ(refusal(input), "out_of_range parts[0].gauge.resolution_mm");
  input = job(oval(283.6, 0.1));
  std::swap(input.parts[0].limits.machine_to, input.parts[0].limits.discard);
  EXPECT_EQ(refusal(input), "out_of_range parts[0].limits.machine_to.value_mm");
  input = job(oval(283.6, 0.1));
  input.parts[0].readings.resize(2);
  EXPECT_EQ(refusal(input), "too_few parts[0].readings");
  input = job(oval(283.6, 0.1));
  input.parts[0].limits.out_of_round->value_mm = 0;
  EXPECT_EQ(refusal(input), "out_of_range parts[0].limits.out_of_round.value_mm");
  input.parts.clear();
  EXPECT_EQ(refusal(input), "too_few parts");
}

TEST(ShoeContact, ALiningOfLessRadiusTouchesAtMidShoeAndOneOfMoreAtHeelAndToe) {
  const ShoeContact mid = shoe_contact(142.0, {.lining_radius_mm = 141.6, .arc_deg = 120});
  EXPECT_EQ(mid.contact, Contact::mid_shoe);
  EXPECT_NEAR(mid.gap_um, 400 * (1 - std::cos(std::numbers::pi / 3)), 2);
  const ShoeContact ends = shoe_contact(142.0, {.lining_radius_mm = 142.4, .arc_deg = 120});
  EXPECT_EQ(ends.contact, Contact::heel_and_toe);
  EXPECT_NEAR(ends.gap_um, 400 * (1 / std::cos(std::numbers::pi / 3) - 1), 6);
  EXPECT_EQ(shoe_contact(142.0, {.lining_radius_mm = 142.0}).contact, Contact::full);
}

RC_GTEST_PROP(ShoeContact, TheGapGrowsWithWhatTheRadiiDifferBy, ()) {
  const double radius = *rc::gen::inRange(100, 400), arc = *rc::gen::inRange(20, 160);
  const double off = *rc::gen::inRange(-1000, 1000) * 0.001;
  const double gap = shoe_contact(radius, {.lining_radius_mm = radius - off, .arc_deg = arc}).gap_um;
  const double wider = shoe_contact(radius, {.lining_radius_mm = radius - 1.5 * off, .arc_deg = arc}).gap_um;
  RC_ASSERT(gap >= 0);
  RC_ASSERT(wider >= gap - 1e-9);
}

BorePlanInput bore() {
  return {.diameter_mm = 283.7,
          .width_mm = 55,
          .needed_um = 190,
          .first_touch_mm = 283.5,
          .machine_to_mm = 284.734,
          .speeds_rpm = {60, 100},
          .feeds_mm_per_rev = {0.05, 0.1, 0.2},
          .dial_um_per_mark = 25,
          .nose_radius_mm = 0.8,
          .max_speed_m_per_min = 150,
          .ra_target_um = 2};
}

TEST(BorePlan, PassesGoFromFirstTouchToTheNeededDepthOnOneSide) {
  const BorePlan plan = plan_bore(bore());
  double depth = 0;
  for (const BorePass& pass : plan.passes) {
    depth += pass.depth_on_radius_um;
    EXPECT_DOUBLE_EQ(pass.change_on_diameter_um, 2 * pass.depth_on_radius_um);
    EXPECT_NEAR(pass.time_s, 55 / (pass.feed_mm_per_rev * pass.rpm) * 60, 1e-9);
    EXPECT_NEAR(pass.surface_speed_m_per_min, std::numbers::pi * 283.7 * pass.rpm / 1000, 1e-9);
    EXPECT_LE(pass.depth_on_radius_um, 150);
  }
  EXPECT_NEAR(depth, 200, 1e-9);
  EXPECT_NEAR(plan.final_mm, 283.9, 1e-9);
  EXPECT_LE(plan.passes.back().depth_on_radius_um, 40);
}

TEST(BorePlan, ABandWiderThanTheRadiusStillTakesItsTime) {
  BorePlanInput input = bore();
  input.width_mm = 200;
  for (const BorePass& pass : plan_bore(input).passes) {
    EXPECT_NEAR(pass.time_s, 200 / (pass.feed_mm_per_rev * pass.rpm) * 60, 1e-9);
  }
}

TEST(BorePlan, OverTheMachineToDiameterItIsRefused) {
  BorePlanInput input = bore();
  input.machine_to_mm = 283.8;
  try {
    plan_bore(input);
    FAIL();
  } catch (const InputError& error) {
    EXPECT_EQ(error.field(), "limits.machine_to.value_mm");
  }
}

}  // namespace
}  // namespace brakewright::drum
