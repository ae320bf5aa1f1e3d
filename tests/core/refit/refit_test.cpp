#include "core/refit/refit.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>
#include <string>

#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright {
namespace {

RefitInput simple() {
  RefitInput input;
  input.hub = {{1, 30, 40}};
  input.part = {{1, 25, 40}};
  input.positions = 5;
  return input;
}

std::string refusal(const RefitInput& input) {
  try {
    best_refit(input);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}

TEST(Refit, HighSpotsGoAsNearlyOppositeAsTheStudsAllow) {
  const Refit found = best_refit(simple());
  EXPECT_EQ(found.best.position, 2);  // 144 degrees; 216 is as good, and the lower position counts
  EXPECT_DOUBLE_EQ(found.best.turn_deg, 144);
  const double turn = 144 * std::numbers::pi / 180;
  EXPECT_NEAR(found.best.runout_um, 2 * std::hypot(30 + 25 * std::cos(turn), 25 * std::sin(turn)), 1e-9);
  EXPECT_NEAR(found.worst_um, 110, 1e-9);
  EXPECT_EQ(found.all.size(), 5U);
  EXPECT_FALSE(found.best.p_within.has_value());
  EXPECT_FALSE(found.best.true_runout_um.has_value());
}

TEST(Refit, APlateIsUsedOnlyWhereTheLimitIsMissedWithout) {
  RefitInput input = simple();
  input.radius_mm = 130;
  input.plates = {{"thin", 20, 150}, {"thick", 60, 150}};
  const double without = best_refit(input).best.runout_um;
  EXPECT_FALSE(best_refit(input).best.plate.has_value());
  input.limit_um = without + 0.1;
  EXPECT_FALSE(best_refit(input).best.plate.has_value());
  input.limit_um = without - 0.1;
  const Refit found = best_refit(input);
  ASSERT_TRUE(found.best.plate.has_value());
  EXPECT_LT(found.best.runout_um, without);
  EXPECT_EQ(found.all.size(), 7U);
  EXPECT_EQ(*found.all[5].plate, 0U);
  EXPECT_EQ(found.best.runout_um, std::min(found.all[5].runout_um, found.all[6].runout_um));
}

TEST(Refit, APlateThatOnlyHarmsIsLeftOut) {
  RefitInput input = simple();
  input.hub = {{1, 5, 0}};
  input.part = {{1, 5, 180}};
  input.positions = 4;
  input.hub.push_back({2, 20, 0});
  input.radius_mm = 130;
  input.plates = {{"wedge", 200, 150}};
  input.limit_um = 10;
  const Refit found = best_refit(input);
  EXPECT_FALSE(found.best.plate.has_value());
  EXPECT_EQ(found.advice.front().code, "still_over");
}

TEST(Refit, OfEqualPlatesTheFirstAndOfEqualPositionsTheLowestIsTaken) {
  RefitInput input = simple();
  input.radius_mm = 130;
  input.plates = {{"b", 20, 150}, {"a", 20, 150}};
  input.limit_um = 1;
  const Refit found = best_refit(input);
  EXPECT_EQ(*found.best.plate, 0U);
  input.hub.clear();
  input.plates.clear();
  EXPECT_EQ(best_refit(input).best.position, 0);
  EXPECT_EQ(best_refit(input).advice.back().code, "all_alike");
}

TEST(Refit, ProbabilityFallsAsTheLimitTightens) {
  RefitInput input = simple();
  input.u_um = 3;
  input.draws = 4000;
  input.limit_um = 25;
  const auto p_at = [&](double limit_um) {
    input.limit_um = limit_um;
    return *best_refit(input).best.p_within;
  };
  const double best = best_refit(input).best.runout_um;
  EXPECT_GT(p_at(best + 20), 0.97);
  EXPECT_LT(p_at(best - 20), 0.03);
  EXPECT_GT(p_at(best + 5), p_at(best));
  EXPECT_EQ(p_at(best), p_at(best));
  input.limit_um = best + 20;
  EXPECT_EQ(best_refit(input).best.verdict, Standing::within);
  EXPECT_EQ(best_refit(input).all[0].verdict, Standing::outside);
}

TEST(Refit, ARemountingThatAddsTiltWidensTheInterval) {
  RefitInput input = simple();
  input.u_um = 1;
  const auto width = [&](double refit_u_um) {
    input.refit_u_um = refit_u_um;
    const Posterior found = *best_refit(input).best.true_runout_um;
    return found.high95 - found.low95;
  };
  EXPECT_GT(width(4), 2 * width(0));
}

/// Readings of a hub and part with these first waves, at `count` angles in each position.
RefitReadings readings_of(const std::vector<double>& turns_deg, int count, double second_um = 0) {
  RefitReadings readings{.positions = {}, .noise_sd_um = 1};
  for (const double turn : turns_deg) {
    PositionTrace position{.turn_deg = turn};
    for (int i = 0; i < count; ++i) {
      const double t = 2 * std::numbers::pi * i / count, s = t - turn * std::numbers::pi / 180;
      position.trace.angles_deg.push_back(360.0 * i / count);
      position.trace.values_um.push_back(30 * std::cos(t - 0.7) + 25 * std::cos(s - 0.7) + second_um * std::cos(2 * s));
    }
    readings.positions.push_back(position);
  }
  return readings;
}

TEST(Refit, ReadingsInTwoPositionsGiveTheBestThird) {
  RefitInput input;
  input.positions = 5;
  input.readings = readings_of({0, 72}, 12);
  const Refit found = best_refit(input);
  EXPECT_TRUE(found.from_readings);
  EXPECT_TRUE(found.best.position == 2 || found.best.position == 3);
  EXPECT_NEAR(found.best.runout_um, best_refit(simple()).best.runout_um, 3);
  EXPECT_GT(found.best.true_runout_um->high95, found.best.true_runout_um->low95);
}

TEST(Refit, OneTraceLeavesThePositionsThatWereNotReadWideOpen) {
  RefitInput input;
  input.positions = 5;
  input.readings = readings_of({0}, 12);
  const Refit found = best_refit(input);
  const auto width = [&](std::size_t position) {
    return found.all[position].true_runout_um->high95 - found.all[position].true_runout_um->low95;
  };
  EXPECT_GT(width(2), 8 * width(0));
  EXPECT_NEAR(found.all[0].runout_um, 110, 4);
}

TEST(Refit, RefusalsNameTheField) {
  RefitInput input = simple();
  input.positions = 0;
  EXPECT_EQ(refusal(input), "out_of_range positions");
  input = simple();
  input.hub[0].order = 0;
  EXPECT_EQ(refusal(input), "out_of_range hub[0].order");
  input = simple();
  input.part.push_back({1, 3, 0});
  EXPECT_EQ(refusal(input), "out_of_range part[1].order");
  input = simple();
  input.plates = {{"x", 20, 150}};
  EXPECT_EQ(refusal(input), "missing radius_mm");
  input.radius_mm = 130;
  input.plates[0].diameter_mm = 0;
  EXPECT_EQ(refusal(input), "out_of_range plates[0].diameter_mm");
  input = simple();
  input.readings = readings_of({0, 72}, 3);
  input.readings->noise_sd_um.reset();
  EXPECT_EQ(refusal(input), "missing readings.noise_sd_um");
  input.readings->positions[1].trace.values_um.pop_back();
  EXPECT_EQ(refusal(input), "sizes_differ readings.positions[1].values_um");
}

RC_GTEST_PROP(Refit, TurningTheHubsAndThePartsFramesTogetherChangesNoRunout, ()) {
  RefitInput input;
  input.positions = *rc::gen::inRange(3, 9);
  for (auto* waves : {&input.hub, &input.part}) {
    const int orders = *rc::gen::inRange(1, 6);
    for (int k = 1; k <= orders; ++k) {
      waves->push_back({k, *rc::gen::inRange(0, 400) * 0.1, *rc::gen::inRange(0, 3600) * 0.1});
    }
  }
  const Refit before = best_refit(input);
  const double turn = *rc::gen::inRange(1, 360);
  for (auto* waves : {&input.hub, &input.part}) {
    for (Harmonic& wave : *waves) wave.phase_deg = std::fmod(wave.phase_deg + wave.order * turn, 360);
  }
  const Refit after = best_refit(input);
  for (std::size_t i = 0; i < before.all.size(); ++i) {
    RC_ASSERT(std::abs(before.all[i].runout_um - after.all[i].runout_um) < 1e-6);
  }
}

}  // namespace
}  // namespace brakewright
