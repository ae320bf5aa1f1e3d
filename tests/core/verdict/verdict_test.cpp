#include "core/verdict/verdict.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>

#include "core/input_error.hpp"
#include "tests/core/verdict/sample_job.hpp"

namespace brakewright {
namespace {

std::string refusal(const VerdictInput& job) {
  try {
    judge(job);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}

TEST(Verdict, LeavesAPartThatIsWithinEveryLimit) {
  const Verdict verdict = judge(sample_job(sample_part("left", 22, 2)));
  EXPECT_EQ(verdict.action, Action::leave);
  EXPECT_GT(verdict.p, 0.99);
  EXPECT_EQ(verdict.reasons.front().code, "no_cut_called_for");
  EXPECT_EQ(verdict.parts[0].cut_called_for, Standing::within);
  EXPECT_FALSE(verdict.next_measurement.has_value());
}

TEST(Verdict, CutsWhatVariesTooMuchAndHasThicknessToSpare) {
  const Verdict verdict = judge(sample_job(sample_part("left", 22, 20)));
  EXPECT_EQ(verdict.action, Action::cut);
  EXPECT_GT(verdict.p, 0.99);
  EXPECT_EQ(verdict.reasons.front().code, "final_over_machine_to");
  EXPECT_TRUE(says(verdict.reasons, "variation_outside"));
  EXPECT_EQ(verdict.parts[0].cut_called_for, Standing::outside);
}

TEST(Verdict, TheDecidingSentenceCanBeCheckedByHand) {
  const Verdict verdict = judge(sample_job(sample_part("left", 22, 20)));
  const Reason& reason = verdict.reasons.front();
  const Cleanup& cut = verdict.parts[0].cleanup;
  EXPECT_EQ(*reason.value, cut.final_whole_marks_mm);
  EXPECT_EQ(*reason.limit, 20.6);
  EXPECT_EQ(reason.source, "service information");
  // Mean 22; outboard stands 15 um high and inboard 5 (thickness wave 20 less 15); 30 and 10 um of travel are two
  // marks and one of 25.4 um: 22 + 0.020 - 0.0762 = 21.9438.
  EXPECT_EQ(cut.outboard_marks, 2);
  EXPECT_EQ(cut.inboard_marks, 1);
  EXPECT_NEAR(*reason.value, 21.9438, 1e-3);
  EXPECT_NE(reason.text.find("2 marks outboard and 1 inboard"), std::string::npos) << reason.text;
}

TEST(Verdict, ReplacesAtOrBelowDiscard) {
  const Verdict verdict = judge(sample_job(sample_part("left", 19.95, 2)));
  EXPECT_EQ(verdict.action, Action::replace);
  EXPECT_GT(verdict.p, 0.99);
  EXPECT_EQ(verdict.reasons.front().code, "below_discard");
}

TEST(Verdict, BetweenDiscardAndMachineToAPartMayStayButNotBeCut) {
  const Verdict good = judge(sample_job(sample_part("left", 20.3, 2)));
  EXPECT_EQ(good.action, Action::leave);
  EXPECT_TRUE(says(good.reasons, "between_limits"));
  const Verdict worn = judge(sample_job(sample_part("left", 20.3, 20)));
  EXPECT_EQ(worn.action, Action::replace);
  EXPECT_EQ(worn.reasons.front().code, "final_under_machine_to");
}

TEST(Verdict, ReplacesWhatTheLeastCutWouldTakeUnderMachineTo) {
  PartReadings part = sample_part("left", 20.7, 20);
  part.scoring = {.outboard_um = 80, .inboard_um = 80, .u_um = 5};
  const Verdict verdict = judge(sample_job(part));
  EXPECT_EQ(verdict.action, Action::replace);
  EXPECT_LT(*verdict.parts[0].p_final_over_machine_to, 0.05);
}

TEST(Verdict, ACrackComesBeforeAnyMeasurement) {
  PartReadings part = sample_part("left", 22, 2);
  part.findings = {{.kind = "crack", .reject = true}};
  const Verdict verdict = judge(sample_job(part));
  EXPECT_EQ(verdict.action, Action::replace);
  EXPECT_EQ(verdict.p, 1);
  EXPECT_EQ(verdict.reasons.front().code, "finding_reject");
  EXPECT_NE(verdict.reasons.front().text.find("crack"), std::string::npos);
}

TEST(Verdict, AFindingThatTheShopDoesNotRejectOnDecidesNothing) {
  PartReadings part = sample_part("left", 22, 2);
  part.findings = {{.kind = "rust lip", .reject = false}};
  EXPECT_EQ(judge(sample_job(part)).action, Action::leave);
}

TEST(Verdict, AnUnknownMachineToIsSaidAndNotGuessed) {
  PartReadings part = sample_part("left", 22, 20);
  part.limits.machine_to.reset();
  const Verdict verdict = judge(sample_job(part));
  EXPECT_EQ(verdict.action, Action::measure_again);
  EXPECT_TRUE(says(verdict.reasons, "machine_to_unknown"));
  ASSERT_TRUE(verdict.next_measurement.has_value());
  EXPECT_EQ(verdict.next_measurement->kind, "find_limit");
  EXPECT_EQ(verdict.next_measurement->question, "limit:machine_to");
}

TEST(Verdict, TheHouseAllowanceStandsInOnlyWhenTheShopGivesIt) {
  PartReadings part = sample_part("left", 22, 20);
  part.limits.machine_to.reset();
  VerdictInput job = sample_job(part);
  // 0.38 mm over discard: common practice, no source.
  job.house_allowance = LengthLimit{0.38, "house rule"};
  const Verdict verdict = judge(job);
  EXPECT_EQ(verdict.action, Action::cut);
  EXPECT_TRUE(says(verdict.reasons, "house_rule"));
  EXPECT_TRUE(verdict.parts[0].machine_to_is_house_rule);
  EXPECT_NEAR(verdict.parts[0].machine_to->value_mm, 20.38, 1e-12);
}

TEST(Verdict, NoMachineToIsNeededWhereTheCutWouldEndUnderDiscard) {
  PartReadings part = sample_part("left", 20.05, 20);
  part.limits.machine_to.reset();
  part.scoring = {.outboard_um = 100, .inboard_um = 100, .u_um = 5};
  const Verdict verdict = judge(sample_job(part));
  EXPECT_EQ(verdict.action, Action::replace);
  EXPECT_TRUE(says(verdict.reasons, "final_under_discard"));
}

TEST(Verdict, WithoutLimitsItAsksForThem) {
  PartReadings part = sample_part("left", 22, 20);
  part.limits = {};
  const Verdict verdict = judge(sample_job(part));
  EXPECT_EQ(verdict.action, Action::measure_again);
  EXPECT_EQ(verdict.next_measurement->kind, "find_limit");
}

TEST(Verdict, ScoringOverItsLimitCallsForACut) {
  PartReadings part = sample_part("left", 22, 2);
  part.limits.scoring = LengthLimit{0.38, "service information"};
  part.scoring = {.outboard_um = 450, .inboard_um = 50, .u_um = 10};
  const Verdict verdict = judge(sample_job(part));
  EXPECT_EQ(verdict.action, Action::cut);
  EXPECT_TRUE(says(verdict.reasons, "scoring_outside"));
}

TEST(Verdict, RunoutAloneSendsOneToTheHubFirst) {
  PartReadings part = sample_part("left", 22, 2);
  part.limits.runout = LengthLimit{0.020, "service information"};
  const Verdict verdict = judge(sample_job(part));
  EXPECT_EQ(verdict.action, Action::cut);
  EXPECT_TRUE(says(verdict.reasons, "runout_whose"));
}

TEST(Verdict, PulsationTipsAPartThatIsMoreLikelyOverItsLimitThanNot) {
  PartReadings part = sample_part("left", 22, 10);
  part.limits.variation = LengthLimit{0.0197, "service information"};
  VerdictInput job = sample_job(part);
  const double p = *judge(job).parts[0].p_variation_within;
  ASSERT_GT(p, 0.05);
  ASSERT_LT(p, 0.5);
  EXPECT_EQ(judge(job).action, Action::measure_again);
  job.complaint = Complaint::pulsation;
  EXPECT_EQ(judge(job).action, Action::cut);
  EXPECT_TRUE(says(judge(job).reasons, "pulsation"));
}

TEST(Verdict, PulsationInAPartWithinItsLimitsIsLookedForElsewhere) {
  VerdictInput job = sample_job(sample_part("left", 22, 2));
  job.complaint = Complaint::pulsation;
  const Verdict verdict = judge(job);
  EXPECT_EQ(verdict.action, Action::leave);
  EXPECT_TRUE(says(verdict.reasons, "pulsation_elsewhere"));
}

TEST(Verdict, BothPartsOfAnAxleAreReplacedWithOne) {
  VerdictInput job = sample_job(sample_part("left", 22, 2));
  job.parts.push_back(sample_part("right", 19.9, 2));
  const Verdict verdict = judge(job);
  EXPECT_EQ(verdict.action, Action::replace);
  EXPECT_TRUE(says(verdict.reasons, "partner_replace"));
  EXPECT_EQ(verdict.parts[0].action, Action::leave) << "each part keeps its own word";
  EXPECT_EQ(verdict.parts[1].action, Action::replace);
}

TEST(Verdict, BothPartsOfAnAxleAreCutWithOne) {
  VerdictInput job = sample_job(sample_part("left", 22, 20));
  job.parts.push_back(sample_part("right", 22, 2));
  const Verdict verdict = judge(job);
  EXPECT_EQ(verdict.action, Action::cut);
  EXPECT_TRUE(says(verdict.reasons, "partner_cut"));
}

TEST(Verdict, APartnerThatCannotBearTheCutEndsThePair) {
  VerdictInput job = sample_job(sample_part("left", 22, 20));
  job.parts.push_back(sample_part("right", 20.3, 2));
  const Verdict verdict = judge(job);
  EXPECT_EQ(verdict.action, Action::replace);
  EXPECT_TRUE(says(verdict.reasons, "partner_cannot_be_cut"));
}

TEST(Verdict, TheOrderOfThePartsDoesNotMatter) {
  VerdictInput job = sample_job(sample_part("left", 22, 20));
  job.parts.push_back(sample_part("right", 21.9, 14));
  VerdictInput turned = job;
  std::swap(turned.parts[0], turned.parts[1]);
  const Verdict a = judge(job);
  const Verdict b = judge(turned);
  EXPECT_EQ(a.action, b.action);
  EXPECT_NEAR(a.p, b.p, 0.02);
  EXPECT_EQ(a.parts[0].action, b.parts[1].action);
  EXPECT_NEAR(a.parts[0].final_mm.median, b.parts[1].final_mm.median, 0.002);
}

TEST(Verdict, WithoutATraceTheCutIsReckonedFromThicknessAndSaysSo) {
  PartReadings part = sample_part("left", 22, 20);
  part.arbor_runout.reset();
  const Verdict from_car = judge(sample_job(part));
  EXPECT_TRUE(from_car.parts[0].runout_assumed);
  EXPECT_TRUE(says(from_car.reasons, "runout_assumed"));
  part.car_runout.reset();
  const Verdict from_nothing = judge(sample_job(part));
  EXPECT_TRUE(from_nothing.parts[0].runout_assumed);
  EXPECT_FALSE(from_nothing.parts[0].runout.has_value());
  EXPECT_EQ(from_nothing.action, Action::cut);
}

TEST(Verdict, WearRoomIsShorterAfterACut) {
  VerdictInput job = sample_job(sample_part("left", 22, 20));
  job.wear_rate = WearRate{.mm_per_unit = 0.2, .relative_u = 0.2, .unit = "year"};
  const PartVerdict part = judge(job).parts[0];
  // About (22 - 0.02 - 20)/0.2 = 9.9 years uncut.
  EXPECT_NEAR(part.wear_room_uncut->median, 9.9, 0.5);
  EXPECT_LT(part.wear_room_cut->median, part.wear_room_uncut->median);
  EXPECT_LT(part.wear_room_uncut->low95, part.wear_room_uncut->median);
  EXPECT_EQ(part.wear_room_cut->unit, "year");
}

TEST(Verdict, TheSameSeedGivesTheSameAnswer) {
  const VerdictInput job = sample_job(sample_part("left", 20.66, 20));
  EXPECT_EQ(judge(job).p, judge(job).p);
}

TEST(Verdict, NonsenseIsRefusedWithItsPath) {
  const VerdictInput good = sample_job(sample_part("left", 22, 2));
  VerdictInput bad = good;
  bad.parts.push_back(good.parts[0]);
  bad.parts[1].readings[3].values_mm[0] = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(refusal(bad), "not_finite parts[1].readings[3].values_mm[0]");
  bad = good;
  bad.parts[0].limits.machine_to->value_mm = 19.0;
  EXPECT_EQ(refusal(bad), "out_of_range parts[0].limits.machine_to.value_mm");
  bad = good;
  bad.parts[0].arbor_runout->outboard.values_um[2] = 1e9;
  EXPECT_EQ(refusal(bad), "out_of_range parts[0].arbor_runout.outboard.values_um[2]");
  bad = good;
  bad.parts[0].car_runout->indicator.resolution_um = -1;
  EXPECT_EQ(refusal(bad), "out_of_range parts[0].car_runout.indicator.resolution_um");
  bad = good;
  bad.parts[0].scoring.u_um = -1;
  EXPECT_EQ(refusal(bad), "out_of_range parts[0].scoring.u_um");
  bad = good;
  bad.confidence = 1;
  EXPECT_EQ(refusal(bad), "out_of_range confidence");
  bad = good;
  bad.parts.clear();
  EXPECT_EQ(refusal(bad), "too_few parts");
  bad = good;
  bad.parts.assign(3, good.parts[0]);
  EXPECT_EQ(refusal(bad), "out_of_range parts");
}

PartReadings any_part(const std::string& name) {
  PartReadings part = sample_part(name, 19.9 + 0.01 * *rc::gen::inRange(0, 220), *rc::gen::inRange(0, 30));
  part.scoring = {.outboard_um = static_cast<double>(*rc::gen::inRange(0, 300)),
                  .inboard_um = static_cast<double>(*rc::gen::inRange(0, 300)),
                  .u_um = static_cast<double>(*rc::gen::inRange(0, 20))};
  if (*rc::gen::arbitrary<bool>()) part.limits.scoring = LengthLimit{0.38, "service information"};
  if (*rc::gen::arbitrary<bool>()) part.arbor_runout.reset();
  if (*rc::gen::arbitrary<bool>()) part.car_runout.reset();
  if (*rc::gen::inRange(0, 4) == 0) part.limits.machine_to.reset();
  if (*rc::gen::inRange(0, 6) == 0) part.limits.discard.reset();
  return part;
}

RC_GTEST_PROP(VerdictProperty, AHigherMachineToNeverMakesTheCutLikelier, ()) {
  PartReadings part = any_part("left");
  part.limits.machine_to = LengthLimit{20.6, "service information"};
  VerdictInput job = sample_job(part);
  job.draws = 400;
  const double before = *judge(job).parts[0].p_final_over_machine_to;
  job.parts[0].limits.machine_to->value_mm += 0.001 * *rc::gen::inRange(0, 200);
  RC_ASSERT(*judge(job).parts[0].p_final_over_machine_to <= before);
}

RC_GTEST_PROP(VerdictProperty, EveryAnswerHasItsWordItsReasonAndFiniteNumbers, ()) {
  VerdictInput job = sample_job(any_part("left"));
  if (*rc::gen::arbitrary<bool>()) job.parts.push_back(any_part("right"));
  job.draws = 400;
  const Verdict verdict = judge(job);
  RC_ASSERT(std::isfinite(verdict.p) && verdict.p >= 0 && verdict.p <= 1);
  RC_ASSERT(!verdict.reasons.empty());
  RC_ASSERT(verdict.next_measurement.has_value() == (verdict.action == Action::measure_again));
  for (const Reason& reason : verdict.reasons) {
    RC_ASSERT(reason.text.find("nan") == std::string::npos);
    RC_ASSERT(reason.text.back() == '.');
    if (reason.value) RC_ASSERT(std::isfinite(*reason.value));
  }
  for (const PartVerdict& part : verdict.parts) {
    RC_ASSERT(std::isfinite(part.p));
    RC_ASSERT(std::isfinite(part.final_mm.low95) && part.final_mm.low95 <= part.final_mm.high95);
  }
}

RC_GTEST_PROP(VerdictProperty, NothingIsEverCutUnderMachineToOrDiscard, ()) {
  VerdictInput job = sample_job(any_part("left"));
  job.draws = 400;
  const Verdict verdict = judge(job);
  if (verdict.action != Action::cut) return;
  RC_ASSERT(verdict.parts[0].p_final_over_machine_to.value_or(0) >= job.confidence);
  if (verdict.parts[0].p_above_discard) RC_ASSERT(*verdict.parts[0].p_above_discard >= job.confidence);
}

}  // namespace
}  // namespace brakewright
