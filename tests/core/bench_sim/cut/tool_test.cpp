#include "core/bench_sim/cut/tool.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "core/bench_sim/cut/tool_dial.hpp"
#include "core/uncertainty/random.hpp"
#include "tests/core/bench_sim/refusal.hpp"

namespace brakewright::bench_sim {
namespace {

GraduatedDial some_dial(Random& random) {
  return {.um_per_mark = 10 + 40 * random.uniform(),
          .scale_error = 0.04 * (random.uniform() - 0.5),
          .wobble_um = 5 * random.uniform(),
          .marks_per_turn = 100,
          .backlash_um = 200 * random.uniform()};
}

TEST(ToolDial, GoingInTheToolIsWhereTheScrewSays) {
  Random random(31);
  for (int trial = 0; trial < 500; ++trial) {
    const GraduatedDial dial = some_dial(random);
    DialState state;
    for (int i = 0; i < 20; ++i) {
      turn_dial(dial, state, 5 * random.uniform());
      EXPECT_NEAR(state.carriage_um, screw_um(dial, state.marks), 1e-9);
    }
  }
}

TEST(ToolDial, DepthDialledAfterTurningBackIsLostByTheBacklash) {
  Random random(32);
  for (int trial = 0; trial < 500; ++trial) {
    const GraduatedDial dial = some_dial(random);
    DialState state;
    turn_dial(dial, state, 30);
    turn_dial(dial, state, -25);
    const DialState touched = state;
    turn_dial(dial, state, 25);
    const double dialled = screw_um(dial, state.marks) - screw_um(dial, touched.marks);
    EXPECT_NEAR(state.carriage_um - touched.carriage_um, dialled - dial.backlash_um, 1e-9);
  }
}

TEST(ToolDial, TurnedBackByLessThanTheBacklashTheToolStays) {
  const GraduatedDial dial{.um_per_mark = 25, .backlash_um = 80};
  DialState state;
  turn_dial(dial, state, 10);
  turn_dial(dial, state, -3);
  EXPECT_DOUBLE_EQ(state.carriage_um, 250);
  turn_dial(dial, state, -1);
  EXPECT_DOUBLE_EQ(state.carriage_um, 230);
}

TEST(ToolDial, AWobblingScrewIsRightAgainAfterAWholeTurn) {
  const GraduatedDial dial{.um_per_mark = 25, .scale_error = 0.01, .wobble_um = 4, .marks_per_turn = 40};
  EXPECT_NEAR(screw_um(dial, 40), 1010, 1e-9);
  EXPECT_NEAR(screw_um(dial, 10), 252.5 + 4, 1e-9);
  EXPECT_NEAR(screw_um(dial, -10), -252.5 - 4, 1e-9);
}

TEST(Tool, WearRaisesTheForceAndTheLeastChip) {
  const RoundNose fresh{.edge_radius_um = 10}, worn{.edge_radius_um = 10, .wear_mm = 0.3};
  EXPECT_DOUBLE_EQ(wear_force_factor(fresh), 1);
  EXPECT_DOUBLE_EQ(wear_force_factor(worn), 1.4);
  EXPECT_DOUBLE_EQ(least_chip_um(fresh), 3);
  EXPECT_GT(least_chip_um(worn), 3);
}

TEST(Tool, RefusalsNameTheirField) {
  const double nan = std::nan("");
  EXPECT_EQ(refusal_of([&] { check(RoundNose{.radius_mm = 0.01}, "nose."); }), "out_of_range nose.radius_mm");
  EXPECT_EQ(refusal_of([&] { check(RoundNose{.wear_mm = nan}, ""); }), "not_finite wear_mm");
  EXPECT_EQ(refusal_of([&] { check(RoundNose{.edge_radius_um = -1}, ""); }), "out_of_range edge_radius_um");
  EXPECT_EQ(refusal_of([&] { check(CutMaterial{.mc = 1}, "material."); }), "out_of_range material.mc");
  EXPECT_EQ(refusal_of([&] { check(CutMaterial{.kc11_n_per_mm2 = 0}, ""); }), "out_of_range kc11_n_per_mm2");
  EXPECT_EQ(refusal_of([&] { check(CutMaterial{.thrust_ratio = 6}, ""); }), "out_of_range thrust_ratio");
  EXPECT_EQ(refusal_of([&] { check(GraduatedDial{.um_per_mark = 0}, "dial."); }), "out_of_range dial.um_per_mark");
  EXPECT_EQ(refusal_of([&] { check(GraduatedDial{.scale_error = 0.5}, ""); }), "out_of_range scale_error");
  EXPECT_EQ(refusal_of([&] { check(GraduatedDial{.wobble_um = -1}, ""); }), "out_of_range wobble_um");
  EXPECT_EQ(refusal_of([&] { check(GraduatedDial{.marks_per_turn = 0}, ""); }), "out_of_range marks_per_turn");
  EXPECT_EQ(refusal_of([&] { check(GraduatedDial{.backlash_um = nan}, ""); }), "not_finite backlash_um");
  DialState state;
  EXPECT_EQ(refusal_of([&] { turn_dial({}, state, nan); }), "not_finite marks");
  EXPECT_EQ(refusal_of([&] { turn_dial({}, state, 2e5); }), "out_of_range marks");
  EXPECT_EQ(state.marks, 0);
}

}  // namespace
}  // namespace brakewright::bench_sim
