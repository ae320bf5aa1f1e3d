#include "core/verdict/next_measurement.hpp"

#include <gtest/gtest.h>

#include "tests/core/verdict/sample_job.hpp"

namespace brakewright {
namespace {

/// A variation of 20 um against a limit of 22, by a micrometer that repeats to 2 um.
VerdictInput near_its_limit() {
  PartReadings part = sample_part("left", 22, 10);
  part.limits.variation = LengthLimit{0.0225, "service information"};
  part.micrometer.repeatability_mm = 0.002;
  return sample_job(part);
}

TEST(NextMeasurement, NamesRepeatsThatWouldSettleAVariation) {
  const Verdict verdict = judge(near_its_limit());
  ASSERT_EQ(verdict.action, Action::measure_again);
  const NextMeasurement& next = *verdict.next_measurement;
  EXPECT_EQ(next.question, "variation");
  EXPECT_EQ(next.part, "left");
  EXPECT_EQ(next.p_now, *verdict.parts[0].p_variation_within);
  EXPECT_GT(next.p_after, next.p_now);
  EXPECT_GE(next.p_after, 0.95);
  EXPECT_NE(next.kind, "none");
  EXPECT_GT(next.p_settles, 0.3);
  EXPECT_LE(next.p_settles, 1);
  EXPECT_EQ(next.angles_deg.size() >= 12, true);
}

TEST(NextMeasurement, ATrueRepeatOfTheReadingsDoesWhatItPromised) {
  VerdictInput job = near_its_limit();
  const NextMeasurement next = *judge(job).next_measurement;
  ASSERT_EQ(next.kind, "repeats");
  for (ThicknessPoint& point : job.parts[0].readings) point.values_mm.assign(next.repeats, point.values_mm[0]);
  EXPECT_NEAR(*judge(job).parts[0].p_variation_within, next.p_after, 0.06);
}

TEST(NextMeasurement, ACoarseMicrometerIsToBeExchanged) {
  PartReadings part = sample_part("left", 22, 1);
  for (ThicknessPoint& point : part.readings) point.values_mm[0] = 22.0;
  part.micrometer = {.resolution_mm = 0.02, .mpe_mm = 0.004, .repeatability_mm = 0.004, .zero_error_mm = 0};
  part.limits.variation = LengthLimit{0.010, "service information"};
  const Verdict verdict = judge(sample_job(part));
  ASSERT_EQ(verdict.action, Action::measure_again);
  EXPECT_EQ(verdict.next_measurement->kind, "finer_micrometer");
  EXPECT_EQ(verdict.next_measurement->resolution_mm, 0.001);
}

TEST(NextMeasurement, NothingSettlesAPartThatLiesOnItsLimit) {
  PartReadings part = sample_part("left", 20.0, 0);
  const Verdict verdict = judge(sample_job(part));
  ASSERT_EQ(verdict.action, Action::measure_again);
  EXPECT_EQ(verdict.next_measurement->question, "discard");
  EXPECT_EQ(verdict.next_measurement->kind, "none");
  EXPECT_NE(verdict.next_measurement->text.find("no reading on hand"), std::string::npos);
}

TEST(NextMeasurement, AScoringDepthNearItsLimitIsReadAgain) {
  PartReadings part = sample_part("left", 22, 2);
  part.limits.scoring = LengthLimit{0.38, "service information"};
  part.scoring = {.outboard_um = 375, .inboard_um = 10, .u_um = 10};
  const Verdict verdict = judge(sample_job(part));
  ASSERT_EQ(verdict.action, Action::measure_again);
  EXPECT_EQ(verdict.next_measurement->kind, "scoring_depth");
}

TEST(NextMeasurement, RunoutNearItsLimitIsTurnedAndReadAgain) {
  PartReadings part = sample_part("left", 22, 2);
  part.limits.runout = LengthLimit{0.031, "service information"};
  const Verdict verdict = judge(sample_job(part));
  ASSERT_EQ(verdict.action, Action::measure_again);
  EXPECT_EQ(verdict.next_measurement->question, "runout");
}

TEST(NextMeasurement, TheMountIsReadWhereItDecidesTheCut) {
  PartReadings part = sample_part("left", 20.70, 20);
  part.arbor_runout.reset();
  VerdictInput job = sample_job(part);
  job.lathe.mount_runout_um = 40;
  const Verdict verdict = judge(job);
  ASSERT_EQ(verdict.action, Action::measure_again) << verdict.p;
  EXPECT_EQ(verdict.next_measurement->question, "machine_to");
  EXPECT_TRUE(verdict.next_measurement->kind == "runout_on_arbor" || verdict.next_measurement->kind == "none")
      << verdict.next_measurement->kind;
}

}  // namespace
}  // namespace brakewright
