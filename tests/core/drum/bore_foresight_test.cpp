#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/drum/bore_plan.hpp"
#include "core/input_error.hpp"

namespace brakewright::drum {
namespace {

BorePlanInput worn_bore() {
  BorePlanInput in;
  in.diameter_mm = 284.1;
  in.first_touch_mm = 283.9;
  in.width_mm = 60;
  in.approach_mm = 6;
  in.needed_um = 110;
  in.machine_to_mm = 284.734;
  in.speeds_rpm = {100, 150};
  in.feeds_mm_per_rev = {0.05, 0.1};
  in.dial_um_per_mark = 25.4;
  in.nose_radius_mm = 0.8;
  in.max_speed_m_per_min = 200;
  in.ra_target_um = 2;
  in.ra_factor = 1.5;
  return in;
}

bool warned(const BoreForesight& seen, const std::string& code) {
  return std::any_of(seen.warnings.begin(), seen.warnings.end(),
                     [&](const cutting::PassWarning& warning) { return warning.code == code; });
}

// By hand: 4 and then 1 mark of 25.4 um from 283.9 mm: 284.1032 and 284.154 mm; 66 mm of travel at 0.1 mm a turn and
// 100 turns a minute is 6.6 minutes; the bore passes at pi 0.2841 m a turn.
TEST(BoreForesight, DepthIsOnTheRadiusAndChangeOnTheDiameter) {
  const BoreForesight seen = foresee_bore(worn_bore(), {.passes = {{4, 100, 0.1}, {1, 100, 0.1}}});
  ASSERT_EQ(seen.passes.size(), 2U);
  EXPECT_NEAR(seen.passes[0].depth_on_radius_um, 101.6, 1e-9);
  EXPECT_NEAR(seen.passes[0].change_on_diameter_um, 203.2, 1e-9);
  EXPECT_NEAR(seen.passes[0].diameter_after_mm, 284.1032, 1e-9);
  EXPECT_NEAR(seen.final_mm, 284.154, 1e-9);
  EXPECT_NEAR(seen.passes[0].time_s, 396, 1e-9);
  EXPECT_NEAR(seen.passes[0].surface_speed_m_per_min, std::numbers::pi * 0.2841 * 100, 1e-9);
  EXPECT_GT(seen.passes[0].force->n, 0);
  EXPECT_TRUE(seen.warnings.empty());
}

TEST(BoreForesight, AgreesWithThePlan) {
  const BorePlan plan = plan_bore(worn_bore());
  BoreOutlook outlook;
  for (const BorePass& pass : plan.passes) outlook.passes.push_back({pass.marks, pass.rpm, pass.feed_mm_per_rev});
  const BoreForesight seen = foresee_bore(worn_bore(), outlook);
  EXPECT_NEAR(seen.final_mm, plan.final_mm, 1e-9);
  EXPECT_NEAR(seen.time_s, plan.time_s, 1e-9);
  EXPECT_TRUE(seen.warnings.empty());
  EXPECT_GE((plan.final_mm - worn_bore().first_touch_mm) * 500, worn_bore().needed_um - 1e-9);
}

TEST(BoreForesight, UntilAPassReachesItTheLargestDiameterStays) {
  const BoreForesight seen = foresee_bore(worn_bore(), {.passes = {{1, 100, 0.1}}});
  EXPECT_DOUBLE_EQ(seen.final_mm, 284.1);
}

// The largest diameter is known to 20 um; each of two settings of 5 um on the radius adds 10 on the diameter.
TEST(BoreForesight, UncertaintyIsOfTheDiameter) {
  const BoreForesight seen =
      foresee_bore(worn_bore(), {.u_diameter_um = 20, .dial_sd_um = 5, .passes = {{4, 100, 0.1}, {1, 100, 0.1}}});
  EXPECT_NEAR(seen.passes[1].u_diameter_after_um, std::hypot(20, 10, std::sqrt(100.0)), 1e-9);
}

TEST(BoreForesight, LimitsWarnInTheTermsOfADiameter) {
  BoreOutlook outlook{.discard_mm = 285.496, .passes = {{20, 100, 0.1}, {1, 100, 0.1}}};
  BoreForesight seen = foresee_bore(worn_bore(), outlook);
  EXPECT_TRUE(warned(seen, "over_machine_to"));
  EXPECT_FALSE(warned(seen, "over_discard"));
  const auto over = std::find_if(seen.warnings.begin(), seen.warnings.end(),
                                 [](const cutting::PassWarning& one) { return one.code == "over_machine_to"; });
  EXPECT_NE(over->text.find("284.916 mm would be reached, 0.182 mm over machine-to (284.734 mm)"), std::string::npos)
      << over->text;
  outlook.passes = {{32, 100, 0.1}};
  seen = foresee_bore(worn_bore(), outlook);
  EXPECT_TRUE(warned(seen, "over_discard"));
  outlook.passes = {{5, 300, 0.1}};
  seen = foresee_bore(worn_bore(), outlook);
  const auto fast = std::find_if(seen.warnings.begin(), seen.warnings.end(),
                                 [](const cutting::PassWarning& one) { return one.code == "speed_over_insert"; });
  ASSERT_NE(fast, seen.warnings.end());
  EXPECT_NE(fast->text.find("at the bore"), std::string::npos);
}

TEST(BoreForesight, ACutTravelsTheSpiralAlongTheBand) {
  // pi times 284 mm, 60 mm at 0.1 mm a turn: 600 turns.
  EXPECT_NEAR(bore_cut_length_m(284, 60, 0.1), std::numbers::pi * 0.284 * 600, 1e-9);
  EXPECT_EQ(bore_cut_length_m(284, 60, 0), 0);
}

TEST(BoreForesight, ABadPassIsNamed) {
  try {
    foresee_bore(worn_bore(), {.passes = {{1, 100, 0.1}, {1, -5, 0.1}}});
    FAIL();
  } catch (const InputError& refusal) {
    EXPECT_EQ(refusal.field(), "passes[1].rpm");
  }
}

}  // namespace
}  // namespace brakewright::drum
