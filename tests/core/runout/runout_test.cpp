#include "core/runout/runout.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "core/input_error.hpp"

namespace brakewright {
namespace {

RunoutInput wave(double amplitude_um, double high_deg) {
  RunoutInput input;
  for (int i = 0; i < 12; ++i) {
    input.trace.angles_deg.push_back(30.0 * i);
    input.trace.values_um.push_back(
        std::round(amplitude_um * std::cos((30.0 * i - high_deg) * std::numbers::pi / 180)));
  }
  input.draws = 2000;
  return input;
}

std::string refusal(const RunoutInput& input) {
  try {
    reduce_runout(input);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}

TEST(Runout, GivesTheTradesFigureAndTheHighSpot) {
  const Runout found = reduce_runout(wave(25, 60));
  EXPECT_EQ(found.runout_um, 50);
  EXPECT_EQ(found.high_deg, 60);
  EXPECT_EQ(found.low_deg, 240);
  EXPECT_NEAR(found.harmonics[0].amplitude_um, 25, 0.3);
  EXPECT_NEAR(found.harmonics[0].phase_deg, 60, 1);
  EXPECT_FALSE(found.p_within.has_value());
}

TEST(Runout, AClearCaseIsDecidedAndANearOneIsNot) {
  RunoutInput input = wave(25, 60);
  input.limit_um = 80;
  EXPECT_EQ(reduce_runout(input).verdict, Standing::within);
  input.limit_um = 30;
  EXPECT_EQ(reduce_runout(input).verdict, Standing::outside);
  input.limit_um = 50.3;
  EXPECT_EQ(reduce_runout(input).verdict, Standing::cannot_tell);
}

TEST(Runout, TheTruthLiesInItsInterval) {
  const Posterior found = reduce_runout(wave(25, 60)).true_runout_um;
  EXPECT_LT(found.low95, 50);
  EXPECT_GT(found.high95, 50);
  EXPECT_LT(found.high95 - found.low95, 8);
}

TEST(Runout, RepeatsOfATurnAreAveraged) {
  RunoutInput once = wave(10, 0);
  RunoutInput thrice = once;
  for (int n = 0; n < 2; ++n) {
    for (std::size_t i = 0; i < 12; ++i) {
      thrice.trace.angles_deg.push_back(once.trace.angles_deg[i]);
      thrice.trace.values_um.push_back(once.trace.values_um[i]);
    }
  }
  const Runout a = reduce_runout(once);
  const Runout b = reduce_runout(thrice);
  EXPECT_EQ(a.runout_um, b.runout_um);
  EXPECT_LT(b.true_runout_um.high95 - b.true_runout_um.low95, a.true_runout_um.high95 - a.true_runout_um.low95);
}

TEST(Runout, NonsenseIsRefusedWithItsField) {
  RunoutInput bad = wave(10, 0);
  bad.trace.values_um.pop_back();
  EXPECT_EQ(refusal(bad), "sizes_differ trace.values_um");
  bad = wave(10, 0);
  bad.trace.values_um[3] = 1e9;
  EXPECT_EQ(refusal(bad), "out_of_range trace.values_um[3]");
  bad = wave(10, 0);
  bad.trace.angles_deg.assign(12, 30.0);
  EXPECT_EQ(refusal(bad), "too_few trace.angles_deg");
  bad = wave(10, 0);
  bad.indicator.resolution_um = 0;
  EXPECT_EQ(refusal(bad), "out_of_range indicator.resolution_um");
}

}  // namespace
}  // namespace brakewright
