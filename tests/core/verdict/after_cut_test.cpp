#include "core/verdict/after_cut.hpp"

#include <gtest/gtest.h>

#include "core/input_error.hpp"

namespace brakewright {
namespace {

std::vector<ThicknessPoint> map_of(std::vector<double> values_mm) {
  std::vector<ThicknessPoint> points;
  for (std::size_t i = 0; i < values_mm.size(); ++i) {
    points.push_back({.angle_deg = 360.0 * static_cast<double>(i) / static_cast<double>(values_mm.size()),
                      .radius_mm = std::nullopt,
                      .values_mm = {values_mm[i]}});
  }
  return points;
}

AfterCutInput sample() {
  AfterCutInput input;
  input.before = map_of({22.020, 22.014, 22.000, 21.986, 21.980, 21.986, 22.000, 22.014});
  input.after = map_of({21.900, 21.901, 21.900, 21.899, 21.900, 21.901, 21.900, 21.900});
  input.micrometer_before = {.resolution_mm = 0.001, .mpe_mm = 0.002, .repeatability_mm = 0.001, .zero_error_mm = 0};
  input.micrometer_after = input.micrometer_before;
  input.limits.machine_to = LengthLimit{20.6, "service information"};
  input.limits.discard = LengthLimit{20.0, "cast on the part"};
  input.limits.variation = LengthLimit{0.010, "service information"};
  input.limits.finish = RoughnessLimit{2.0, "service information"};
  input.ra_um = 1.2;
  input.draws = 4000;
  return input;
}

bool advises(const AfterCut& cut, const std::string& code) {
  for (const Advice& advice : cut.advice) {
    if (advice.code == code) return true;
  }
  return false;
}

std::string refusal(const AfterCutInput& input) {
  try {
    check_after_cut(input);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}

TEST(AfterCut, PassesAPartThatIsWithinEveryLimit) {
  const AfterCut cut = check_after_cut(sample());
  EXPECT_EQ(cut.outcome, Outcome::pass);
  EXPECT_EQ(cut.checks.size(), 4U);
  for (const AfterCheck& check : cut.checks) EXPECT_GE(check.p, 0.95) << check.text;
}

TEST(AfterCut, TellsWhatEachSpotLost) {
  const AfterCut cut = check_after_cut(sample());
  EXPECT_NEAR(cut.removed[0].removed_um, 120, 1e-6);
  EXPECT_NEAR(cut.removed[4].removed_um, 80, 1e-6);
  EXPECT_NEAR(cut.removed_min_um, 80, 1e-6);
  EXPECT_NEAR(cut.removed_max_um, 120, 1e-6);
  EXPECT_NEAR(cut.removed_mean_um, 22000 - 21900.125, 1e-6);
}

TEST(AfterCut, HoldsWhatIsLeftAgainstThePlan) {
  AfterCutInput input = sample();
  input.planned_final_mm = 21.903;
  EXPECT_EQ(check_after_cut(input).agrees_with_plan, true);
  input.planned_final_mm = 21.950;
  const AfterCut off = check_after_cut(input);
  EXPECT_EQ(off.agrees_with_plan, false);
  EXPECT_NEAR(*off.difference_um, 49.875, 1e-6);
  EXPECT_TRUE(advises(off, "not_as_planned"));
}

TEST(AfterCut, NoMoreMayBeGoneThanBothDialsTook) {
  AfterCutInput input = sample();
  input.outboard_marks = 3;
  input.inboard_marks = 2;
  const AfterCut fine = check_after_cut(input);
  EXPECT_NEAR(*fine.planned_um, 127, 1e-9);
  EXPECT_EQ(fine.agrees_with_plan, true);
  input.outboard_marks = 1;
  input.inboard_marks = 1;
  const AfterCut off = check_after_cut(input);
  EXPECT_EQ(off.agrees_with_plan, false);
  EXPECT_TRUE(advises(off, "not_as_planned"));
}

TEST(AfterCut, FailsOnAnyLimitThatIsClearlyMissed) {
  AfterCutInput input = sample();
  input.ra_um = 3.5;
  EXPECT_EQ(check_after_cut(input).outcome, Outcome::fail);
  input = sample();
  input.limits.machine_to = LengthLimit{21.95, "service information"};
  EXPECT_EQ(check_after_cut(input).outcome, Outcome::fail);
}

TEST(AfterCut, CannotTellWhereALimitIsTooNear) {
  AfterCutInput input = sample();
  input.ra_um = 1.95;
  EXPECT_EQ(check_after_cut(input).outcome, Outcome::cannot_tell);
  input = sample();
  input.limits = {};
  EXPECT_EQ(check_after_cut(input).outcome, Outcome::cannot_tell) << "nothing was asked";
}

TEST(AfterCut, QuestionsAPartThatGrew) {
  AfterCutInput input = sample();
  input.after[4].values_mm[0] = 22.010;
  EXPECT_TRUE(advises(check_after_cut(input), "thicker_after"));
}

TEST(AfterCut, QuestionsACutOfOneSide) {
  AfterCutInput input = sample();
  input.outboard_marks = 5;
  input.inboard_marks = 0;
  EXPECT_TRUE(advises(check_after_cut(input), "one_side_only"));
}

TEST(AfterCut, WantsTheSameSpotsBeforeAndAfter) {
  AfterCutInput input = sample();
  input.after[3].angle_deg = 140;
  EXPECT_EQ(refusal(input), "sizes_differ after");
  input = sample();
  input.after.pop_back();
  EXPECT_EQ(refusal(input), "sizes_differ after");
}

TEST(AfterCut, NonsenseIsRefusedWithItsPath) {
  AfterCutInput input = sample();
  input.after[2].values_mm[0] = -1;
  EXPECT_EQ(refusal(input), "out_of_range after[2].values_mm[0]");
  input = sample();
  input.micrometer_before.mpe_mm = -1;
  EXPECT_EQ(refusal(input), "out_of_range micrometer_before.mpe_mm");
  input = sample();
  input.temperature_after_c = 500;
  EXPECT_EQ(refusal(input), "out_of_range temperature_after_c");
  input = sample();
  input.outboard_marks = 2;
  EXPECT_EQ(refusal(input), "missing inboard_marks");
}

}  // namespace
}  // namespace brakewright
