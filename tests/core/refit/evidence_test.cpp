#include <gtest/gtest.h>

#include <cmath>

#include "core/input_error.hpp"
#include "core/refit/refit.hpp"
#include "tests/core/refit/simulated_fit.hpp"

namespace brakewright {
namespace {

/// Readings of a curve at even angles, without noise.
Trace read(const std::vector<Harmonic>& waves, int angles, double turn_deg = 0) {
  Trace trace;
  for (int i = 0; i < angles; ++i) {
    trace.angles_deg.push_back(360.0 * i / angles);
    trace.values_um.push_back(curve(waves, trace.angles_deg.back() - turn_deg));
  }
  return trace;
}

Trace sum_of(Trace one, const Trace& other) {
  for (std::size_t i = 0; i < one.values_um.size(); ++i) one.values_um[i] += other.values_um[i];
  return one;
}

PositionTrace fitted(const std::vector<Harmonic>& hub, const std::vector<Harmonic>& part, double turn_deg) {
  return {.turn_deg = turn_deg, .trace = sum_of(read(hub, 16), read(part, 16, turn_deg))};
}

RefitInput asking(RefitReadings readings) {
  RefitInput input{.hub = {}, .part = {}, .positions = 5};
  input.readings = std::move(readings);
  input.limit_um = 30;
  return input;
}

const std::vector<Harmonic> kHub{{1, 40, 20}}, kPart{{1, 25, 75}};

std::string field_of(const RefitInput& input) {
  try {
    best_refit(input);
  } catch (const InputError& error) {
    return error.field();
  }
  return "not refused";
}

TEST(RefitEvidence, ABareFlangeAndOnePositionTellWhatTwoPositionsTell) {
  RefitReadings readings{.positions = {fitted(kHub, kPart, 0)}, .noise_sd_um = 0.5};
  Trace flange = read(kHub, 16);
  for (double& value : flange.values_um) value /= 2.5;  // read on a circle of two fifths of the radius
  readings.flange.push_back({.trace = flange, .lift = 2.5});
  const Refit refit = best_refit(asking(readings));
  ASSERT_GE(refit.hub.size(), 1u);
  EXPECT_NEAR(refit.hub[0].amplitude_um, 40, 0.5);
  EXPECT_NEAR(refit.hub[0].phase_deg, 20, 1);
  EXPECT_NEAR(refit.part[0].amplitude_um, 25, 0.5);
  EXPECT_NEAR(refit.part[0].phase_deg, 75, 1);
}

TEST(RefitEvidence, HowTheFinerWavesOfTheFlangeLieDoesNotBearOnTheDisc) {
  RefitReadings one{.positions = {fitted(kHub, kPart, 0)}, .noise_sd_um = 0.5}, other = one;
  one.flange.push_back({.trace = read({{1, 40, 20}, {2, 15, 100}, {3, 9, 5}}, 16)});
  other.flange.push_back({.trace = read({{1, 40, 20}, {2, 15, 310}, {3, 9, 77}}, 16)});
  EXPECT_NEAR(best_refit(asking(one)).best.runout_um, best_refit(asking(other)).best.runout_um, 1e-6);
}

TEST(RefitEvidence, ABenchThatWobblesLeavesThatMuchOpenAndNoMore) {
  RefitReadings readings{.positions = {}, .noise_sd_um = 0.5};
  readings.flange.push_back({.trace = read(kHub, 16)});
  readings.bench.push_back({.trace = read(kPart, 16)});
  const auto width = [](const Refit& refit) {
    return refit.best.true_runout_um->high95 - refit.best.true_runout_um->low95;
  };
  const Refit steady = best_refit(asking(readings));
  EXPECT_NEAR(steady.part[0].amplitude_um, 25, 0.5);
  readings.bench[0].u_tilt_um = 3;
  const Refit wobbly = best_refit(asking(readings));
  // Along the high spot the tilt of 3 um comes in on both ends: 2 * 3 um of standard deviation, 4 * 1.96 * 3 in all.
  EXPECT_NEAR(width(wobbly), 4 * 1.96 * 3, 4);
  EXPECT_LT(width(steady), width(wobbly) / 2);
}

TEST(RefitEvidence, AnotherPartOnTheSameHubTellsTheHubAlone) {
  const std::vector<Harmonic> former{{1, 60, 310}, {2, 8, 40}};
  RefitReadings readings{.positions = {}, .noise_sd_um = 0.5};
  readings.other_part = {fitted(kHub, former, 0), fitted(kHub, former, 72)};
  readings.bench.push_back({.trace = read(kPart, 16)});
  const Refit refit = best_refit(asking(readings));
  EXPECT_NEAR(refit.hub[0].amplitude_um, 40, 1);
  EXPECT_NEAR(refit.hub[0].phase_deg, 20, 1.5);
  EXPECT_NEAR(refit.part[0].amplitude_um, 25, 1);
}

TEST(RefitEvidence, APositionThatIsKeptIsTheOnlyOneThatPlatesAreTriedIn) {
  RefitInput input = asking({.positions = {fitted(kHub, kPart, 144)}, .noise_sd_um = 0.5});
  input.radius_mm = 130;
  input.plates = {{"a", 30, 260}, {"b", 60, 260}};
  input.keep_position = 2;
  input.by_likely = true;
  const Refit refit = best_refit(input);
  EXPECT_EQ(refit.best.position, 2);
  ASSERT_EQ(refit.all.size(), 7u);
  EXPECT_EQ(refit.all[5].position, 2);
  EXPECT_EQ(refit.all[6].position, 2);
  EXPECT_TRUE(refit.all[5].true_runout_um && refit.all[6].true_runout_um);
}

TEST(RefitEvidence, ByLikelyTheBestIsTheOneWithTheLeastMedian) {
  Random random(11);
  for (int n = 0; n < 20; ++n) {
    const auto hub = drawn_waves(random, 4, 20, 1), part = drawn_waves(random, 4, 20, 1);
    RefitInput input = asking({.positions = {fitted(hub, part, 0), fitted(hub, part, 72)}, .noise_sd_um = 4});
    input.limit_um.reset();
    input.by_likely = true;
    input.draws = 400;
    const Refit refit = best_refit(input);
    for (const FittedRunout& other : refit.all) {
      EXPECT_LE(refit.best.true_runout_um->median, other.true_runout_um->median);
    }
  }
}

TEST(RefitEvidence, RefusalsNameTheTrace) {
  RefitReadings readings{.positions = {fitted(kHub, kPart, 0)}, .noise_sd_um = 0.5};
  readings.flange.push_back({.trace = read(kHub, 8), .lift = 0});
  EXPECT_EQ(field_of(asking(readings)), "readings.flange[0].lift");
  readings.flange[0].lift = 1;
  readings.flange[0].trace.values_um.pop_back();
  EXPECT_EQ(field_of(asking(readings)).rfind("readings.flange[0].", 0), 0u);
  readings.flange.clear();
  readings.bench.push_back({.trace = read(kPart, 8), .u_tilt_um = -1});
  EXPECT_EQ(field_of(asking(readings)), "readings.bench[0].u_tilt_um");
  EXPECT_EQ(field_of(asking({.positions = {}, .noise_sd_um = 1.0})), "readings.positions");
  RefitReadings silent{.positions = {}};
  silent.bench.push_back({.trace = read(kPart, 8)});
  EXPECT_EQ(field_of(asking(silent)), "readings.noise_sd_um");
  RefitInput out = asking({.positions = {fitted(kHub, kPart, 0)}, .noise_sd_um = 0.5});
  out.keep_position = 5;
  EXPECT_EQ(field_of(out), "keep_position");
}

}  // namespace
}  // namespace brakewright
