#include "core/bench_sim/cut/cut.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/bench_sim/cut/finish.hpp"
#include "core/bench_sim/cut/tool_dial.hpp"
#include "core/cutting/finish.hpp"
#include "core/cutting/force.hpp"
#include "core/uncertainty/random.hpp"
#include "tests/core/bench_sim/flat_part.hpp"
#include "tests/core/bench_sim/refusal.hpp"

namespace brakewright::bench_sim {
namespace {

double mean_um(const SimPart& part, Side side, double from_mm, double to_mm) {
  double sum = 0;
  int count = 0;
  for (int ring = 0; ring < part.grid.rings; ++ring) {
    const double radius = part.grid.radius_mm(ring);
    if (radius < from_mm || radius > to_mm) continue;
    for (int angle = 0; angle < part.grid.angles; ++angle, ++count) {
      sum += static_cast<double>(part.face(side).height_um[part.grid.at(ring, angle)]);
    }
  }
  return sum / count;
}

TEST(Cut, ARigidSharpToolLeavesTheKinematicFinish) {
  Random random(51);
  for (int trial = 0; trial < 20; ++trial) {
    const double radius = 0.3 + random.uniform(), feed = 0.06 + 0.14 * random.uniform();
    SimPart part = flat_part({.angles = 36, .rings = 2500, .inner_radius_mm = 90, .ring_step_mm = 0.002});
    Cut cut(part, {.outboard = CuttingTool{.nose = sharp(radius), .tip_um = -40},
                   .feed_mm_per_rev = feed,
                   .start_radius_mm = 90 - radius});
    cut_over(cut, part, radius);
    const cutting::Finish ideal = cutting::finish(feed, radius);
    const int waves = static_cast<int>(4 / feed);
    const RadialFinish finish = radial_finish(part.grid, part.outboard, 7, 90.5, 90.5 + waves * feed);
    // a ridge is missed by half a ring at most, where it is steepest; the line leans by the waves' phase
    const double missed_um = feed / (2 * radius) * 0.001 * 1000;
    EXPECT_NEAR(finish.rt_um, ideal.rt_exact_um, 2 * missed_um + 0.02 * ideal.rt_exact_um);
    EXPECT_NEAR(finish.ra_um / ideal.ra_exact_um, 1, 0.02);
    EXPECT_EQ(mean_um(part, Side::inboard, 90, 92), 0);
  }
}

TEST(Cut, AnEdgeThatCannotTakeThinChipsLeavesBrammertzRidges) {
  Random random(52);
  for (int trial = 0; trial < 15; ++trial) {
    const double radius = 0.4 + 0.6 * random.uniform(), feed = 0.08 + 0.1 * random.uniform();
    const double least_um = (0.1 + 0.5 * random.uniform()) * feed * feed / (2 * radius) * 1000;
    SimPart part = flat_part({.angles = 36, .rings = 2500, .inner_radius_mm = 90, .ring_step_mm = 0.002});
    const RoundNose nose{.radius_mm = radius, .edge_radius_um = least_um / 0.3};
    Cut cut(part, {.outboard = CuttingTool{.nose = nose, .tip_um = -60},
                   .feed_mm_per_rev = feed,
                   .start_radius_mm = 90 - radius});
    cut_over(cut, part, radius);
    const double ideal_um = *cutting::finish(feed, radius, least_um).rt_brammertz_um;
    const RadialFinish finish =
        radial_finish(part.grid, part.outboard, 0, 90.5, 90.5 + static_cast<int>(4 / feed) * feed);
    EXPECT_NEAR(finish.rt_um / ideal_um, 1, 0.04) << feed << ' ' << radius << ' ' << least_um;
  }
}

TEST(Cut, TheThrustIsKienzlesLessSevenPercentAtMost) {
  Random random(53);
  for (int trial = 0; trial < 200; ++trial) {
    const double radius = 0.4 + 0.8 * random.uniform(), feed = 0.05 + 0.15 * random.uniform();
    const double depth = (0.08 + 0.2 * random.uniform()) * radius;
    SimPart part = flat_part({.angles = 36, .rings = 600, .inner_radius_mm = 90, .ring_step_mm = 0.005});
    Cut cut(part, {.outboard = CuttingTool{.nose = sharp(radius), .tip_um = -1000 * depth},
                   .feed_mm_per_rev = feed,
                   .start_radius_mm = 90 - radius});
    cut.advance(static_cast<int>((1.5 + radius) / feed) * 36);
    const cutting::NoseForce force =
        cutting::nose_force({.depth_mm = depth, .feed_mm_per_rev = feed, .nose_radius_mm = radius});
    const double ratio = report_of(cut.trace(Side::outboard)).mean_thrust_n / (force.force_n * force.mean_cos);
    EXPECT_LT(ratio, 1.005) << radius << ' ' << feed << ' ' << depth;
    EXPECT_GT(ratio, 0.93) << radius << ' ' << feed << ' ' << depth;
  }
}

CuttingTool springy(double depth_um, double k_n_per_m) {
  return {.nose = sharp(0.8),
          .holder = chatter::Mode{.k_n_per_m = k_n_per_m, .zeta = 0.2, .fn_hz = 100},
          .tip_um = -depth_um};
}

/// Two springs against each other; both tools at once, from inside to outside.
TEST(Cut, WhatTheDialsTookIsWhatThicknessLostLessTheSprings) {
  Random random(54);
  for (int trial = 0; trial < 500; ++trial) {
    const double feed = 0.06 + 0.1 * random.uniform();
    const double depths_um[] = {60 + 100 * random.uniform(), 60 + 100 * random.uniform()};
    SimPart part = flat_part({.angles = 72, .rings = 80, .inner_radius_mm = 90, .ring_step_mm = 0.02});
    const double k_n_per_m = std::pow(10, 6.8 + random.uniform());
    Cut cut(part, {.outboard = springy(depths_um[0], k_n_per_m),
                   .inboard = springy(depths_um[1], k_n_per_m),
                   .rpm = 300,
                   .feed_mm_per_rev = feed,
                   .start_radius_mm = 89.2});
    cut.advance(static_cast<int>(1.6 / feed) * 72);
    cut.settle();
    for (const Side side : {Side::outboard, Side::inboard}) {
      const double depth_um = depths_um[side == Side::outboard ? 0 : 1];
      const double spring_um = report_of(cut.trace(side)).mean_thrust_n / k_n_per_m * 1e6;
      EXPECT_NEAR(cut.holder_um(side), spring_um, 0.02 * spring_um);
      // the springs of Kienzle's force at the depth that is left
      const cutting::NoseForce force = cutting::nose_force(
          {.depth_mm = (depth_um - spring_um) / 1000, .feed_mm_per_rev = feed, .nose_radius_mm = 0.8});
      EXPECT_NEAR(spring_um / (force.force_n * force.mean_cos / k_n_per_m * 1e6), 0.97, 0.04);
      const double ridges_um = cutting::finish(feed, 0.8).rt_um / 3;
      const double waves_mm = static_cast<int>(0.5 / feed) * feed;
      const double left_um = mean_um(part, side, 90.1, 90.1 + waves_mm - 0.001);
      EXPECT_NEAR(-left_um, depth_um - spring_um - ridges_um, 0.02 * depth_um) << trial;
    }
  }
}

constexpr double kFineFeed_mm = 0.02;  // each ring goes over the ridges once a turn

SimPart tilted_cut(Random& random, const Tilt& tilt, bool springs) {
  SimPart part = flat_part({.angles = 72, .rings = 20, .inner_radius_mm = 90, .ring_step_mm = 0.02});
  const double k_n_per_m = std::pow(10, 6.8 + random.uniform());
  const CuttingTool tool = springs ? springy(150, k_n_per_m) : CuttingTool{.nose = sharp(0.8), .tip_um = -150};
  CutSetup setup{.outboard = tool,
                 .inboard = tool,
                 .rpm = 300,
                 .feed_mm_per_rev = kFineFeed_mm,
                 .start_radius_mm = 89.2,
                 .motion = {.axial_um = 5 * random.normal(), .tilt = tilt}};
  if (springs) setup.disc = {{.k_n_per_m = 2e7, .zeta = 0.1, .fn_hz = 60}};
  Cut cut(part, setup);
  cut_over(cut, part, 0.8);
  return part;
}

TEST(Cut, ATiltOfTheMountIsRunoutAgainstTheHubAndNoVariationOfThickness) {
  Random random(55);
  for (int trial = 0; trial < 500; ++trial) {
    const Tilt tilt{.x_um_per_mm = 0.3 * (random.uniform() - 0.5), .y_um_per_mm = 0.3 * (random.uniform() - 0.5)};
    const SimPart part = tilted_cut(random, tilt, false);
    const double radius = part.grid.radius_mm(10);
    const double runout_um = runout_um_of(tilt, radius), ridge_um = cutting::finish(kFineFeed_mm, 0.8).rt_exact_um;
    EXPECT_NEAR(face_runout_um(part, Side::outboard, radius), runout_um, 0.002 * runout_um + 2 * ridge_um);
    EXPECT_NEAR(face_runout_um(part, Side::inboard, radius), runout_um, 0.002 * runout_um + 2 * ridge_um);
    EXPECT_LT(ring_thickness(part, radius).variation_um, 2 * ridge_um + 0.01);
  }
}

TEST(Cut, WithSpringsATiltLeavesThicknessAFewHundredthsOfItsRunout) {
  Random random(56);
  for (int trial = 0; trial < 50; ++trial) {
    const Tilt tilt{.x_um_per_mm = 0.3 * random.uniform(), .y_um_per_mm = 0.1};
    const SimPart part = tilted_cut(random, tilt, true);
    const double radius = part.grid.radius_mm(10);
    EXPECT_NEAR(face_runout_um(part, Side::outboard, radius) / runout_um_of(tilt, radius), 1, 0.1);
    EXPECT_LT(ring_thickness(part, radius).variation_um, 0.05 * runout_um_of(tilt, radius));
  }
}

TEST(Cut, APartOffTheAxisIsCutTheSameButForTheCircle) {
  Random random(57);
  for (int trial = 0; trial < 20; ++trial) {
    SimPart part = flat_part({.angles = 72, .rings = 150, .inner_radius_mm = 90, .ring_step_mm = 0.02});
    Cut cut(part, {.outboard = CuttingTool{.nose = sharp(0.8), .tip_um = -50},
                   .feed_mm_per_rev = 0.1,
                   .start_radius_mm = 88.5,
                   .motion = {.offset_x_mm = 0.6 * random.uniform(), .offset_y_mm = 0.6 * random.uniform()}});
    cut.advance(72 * 60);
    cut.settle();
    for (const float height : part.outboard.height_um) {
      EXPECT_LT(height, -48);
      EXPECT_GE(height, -50.001F);
    }
  }
}

TEST(Cut, AHardSpotStandsProudOfTheFaceByTheSpringItTakes) {
  SimPart plain = flat_part({.angles = 360, .rings = 80, .inner_radius_mm = 90, .ring_step_mm = 0.02});
  SimPart spotted = plain;
  for (int ring = 0; ring < spotted.grid.rings; ++ring) {
    for (int angle = 100; angle < 160; ++angle) spotted.hardness[spotted.grid.at(ring, angle)] = 1.4F;
  }
  double thrust_n[2] = {};
  for (SimPart* part : {&plain, &spotted}) {
    Cut cut(*part, {.outboard = springy(120, 1e7), .rpm = 60, .feed_mm_per_rev = 0.1, .start_radius_mm = 89.2});
    cut.advance(360 * 14);
    cut.settle();
    thrust_n[part == &spotted] = static_cast<double>(cut.trace(Side::outboard).thrust_n[155]);
  }
  EXPECT_NEAR(thrust_n[1] / thrust_n[0], 1.4, 0.05);
  const std::size_t cell = plain.grid.at(ring_near(plain.grid, 90.4), 155);
  const double proud_um =
      static_cast<double>(spotted.outboard.height_um[cell]) - static_cast<double>(plain.outboard.height_um[cell]);
  EXPECT_GT(proud_um, 0.8);
  EXPECT_NEAR(proud_um, (thrust_n[1] - thrust_n[0]) / 1e7 * 1e6, 0.05);
}

TEST(Cut, BacklashShowsAsDepthLostAfterTurningBack) {
  const GraduatedDial dial{.um_per_mark = 25, .backlash_um = 60};
  DialState state;
  turn_dial(dial, state, 10);
  turn_dial(dial, state, -6);
  const double zero_um = state.carriage_um;  // touched off here, on the wrong flank
  turn_dial(dial, state, 6);
  SimPart part = flat_part({.angles = 36, .rings = 60, .inner_radius_mm = 90, .ring_step_mm = 0.02});
  Cut cut(part, {.outboard = CuttingTool{.nose = sharp(0.8), .tip_um = zero_um - state.carriage_um},
                 .feed_mm_per_rev = 0.05,
                 .start_radius_mm = 89.2});
  cut_over(cut, part, 0.8);
  EXPECT_NEAR(-mean_um(part, Side::outboard, 90, 91.2), 6 * 25 - 60, 0.3);
}

TEST(Cut, AnEdgeSetShallowerThanItsLeastChipRubsAndTakesNothing) {
  SimPart part = flat_part({.angles = 72, .rings = 80, .inner_radius_mm = 90, .ring_step_mm = 0.02});
  const RoundNose worn{.radius_mm = 0.8, .edge_radius_um = 15, .wear_mm = 0.2};
  ASSERT_GT(least_chip_um(worn), 8);
  Cut cut(part, {.outboard = CuttingTool{.nose = worn, .tip_um = -8}, .feed_mm_per_rev = 0.05, .start_radius_mm = 90});
  cut.advance(72 * 10);
  cut.settle();
  const TurnReport report = report_of(cut.trace(Side::outboard));
  EXPECT_TRUE(report.rubs);
  EXPECT_EQ(report.rub_share, 1);
  EXPECT_EQ(report.contact_share, 1);
  EXPECT_GT(report.mean_thrust_n, 0);
  EXPECT_EQ(cut.removed_mm3(Side::outboard), 0);
  EXPECT_EQ(mean_um(part, Side::outboard, 90, 92), 0);
  cut.set_tip(Side::outboard, -60);
  cut.advance(72 * 10);
  EXPECT_FALSE(report_of(cut.trace(Side::outboard)).rubs);
  EXPECT_GT(cut.removed_mm3(Side::outboard), 0);
}

TEST(Cut, RefusalsNameTheirField) {
  const auto refused = [](const std::function<void(SimPart&, CutSetup&)>& spoil) {
    SimPart part = flat_part({.angles = 72, .rings = 80, .inner_radius_mm = 90, .ring_step_mm = 0.02});
    const CuttingTool tool{.holder = chatter::Mode{.k_n_per_m = 1e7, .zeta = 0.05, .fn_hz = 50}};
    CutSetup setup{.outboard = tool, .inboard = tool, .disc = {{.k_n_per_m = 1e7, .zeta = 0.05, .fn_hz = 50}}};
    spoil(part, setup);
    return refusal_of([&] { Cut cut(part, setup); });
  };
  EXPECT_EQ(refused([](SimPart&, CutSetup&) {}), "accepted");
  EXPECT_EQ(refused([](SimPart&, CutSetup& s) { s.outboard.reset(), s.inboard.reset(); }), "missing outboard");
  EXPECT_EQ(refused([](SimPart& p, CutSetup&) { p.hardness.pop_back(); }), "sizes_differ hardness");
  EXPECT_EQ(refused([](SimPart&, CutSetup& s) { s.rpm = 0; }), "out_of_range rpm");
  EXPECT_EQ(refused([](SimPart&, CutSetup& s) { s.disc[0].fn_hz = 100; }), "out_of_range rpm");
  EXPECT_EQ(refused([](SimPart&, CutSetup& s) { s.disc[0].zeta = 0; }), "out_of_range disc[0].zeta");
  EXPECT_EQ(refused([](SimPart&, CutSetup& s) { s.disc.resize(13, s.disc[0]); }), "out_of_range disc");
  EXPECT_EQ(refused([](SimPart&, CutSetup& s) { s.band_factor = 0; }), "out_of_range band_factor");
  EXPECT_EQ(refused([](SimPart&, CutSetup& s) { s.feed_mm_per_rev = -1; }), "out_of_range feed_mm_per_rev");
  EXPECT_EQ(refused([](SimPart&, CutSetup& s) { s.start_radius_mm = NAN; }), "not_finite start_radius_mm");
  EXPECT_EQ(refused([](SimPart&, CutSetup& s) { s.material.mc = 1; }), "out_of_range material.mc");
  EXPECT_EQ(refused([](SimPart&, CutSetup& s) { s.inboard->nose.radius_mm = 0.07; }),
            "out_of_range inboard.nose.radius_mm");
  EXPECT_EQ(refused([](SimPart&, CutSetup& s) { s.inboard->tip_um = 1e5; }), "out_of_range inboard.tip_um");
  EXPECT_EQ(refused([](SimPart&, CutSetup& s) { s.outboard->holder->k_n_per_m = 0; }),
            "out_of_range outboard.holder.k_n_per_m");
  EXPECT_EQ(refused([](SimPart&, CutSetup& s) { s.motion.offset_x_mm = 2; }), "out_of_range motion.offset_x_mm");
  EXPECT_EQ(refused([](SimPart&, CutSetup& s) { s.motion.tilt.y_um_per_mm = NAN; }),
            "not_finite motion.tilt.y_um_per_mm");
}

TEST(Cut, ChangesOnTheWayAreRefusedByTheSameNamesAndLeaveTheCutAsItWas) {
  SimPart part = flat_part({.angles = 72, .rings = 80, .inner_radius_mm = 90, .ring_step_mm = 0.02});
  Cut cut(part, {.outboard = CuttingTool{.nose = sharp(0.8)},
                 .disc = {{.k_n_per_m = 1e7, .zeta = 0.05, .fn_hz = 50}},
                 .start_radius_mm = 90});
  EXPECT_EQ(refusal_of([&] { cut.set_rpm(100); }), "out_of_range rpm");
  EXPECT_EQ(refusal_of([&] { cut.set_feed(9); }), "out_of_range feed_mm_per_rev");
  EXPECT_EQ(refusal_of([&] { cut.set_radius(-1); }), "out_of_range start_radius_mm");
  EXPECT_EQ(refusal_of([&] { cut.set_tip(Side::inboard, 0); }), "missing inboard");
  EXPECT_EQ(refusal_of([&] { cut.set_tip(Side::outboard, NAN); }), "not_finite outboard.tip_um");
  EXPECT_EQ(refusal_of([&] { cut.set_motion({.axial_um = 1e6}); }), "out_of_range motion.axial_um");
  EXPECT_EQ(refusal_of([&] { cut.advance(-1); }), "out_of_range angles");
  EXPECT_EQ(cut.setup().rpm, 150);
  EXPECT_EQ(cut.radius_mm(), 90);
  EXPECT_EQ(cut.turns(), 0);
}

}  // namespace
}  // namespace brakewright::bench_sim
