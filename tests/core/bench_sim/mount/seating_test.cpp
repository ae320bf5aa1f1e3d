#include "core/bench_sim/mount/seating.hpp"

#include <gtest/gtest.h>

#include "core/uncertainty/random.hpp"
#include "tests/core/bench_sim/benches.hpp"
#include "tests/core/bench_sim/refusal.hpp"

namespace brakewright::bench_sim {
namespace {

TEST(Seating, ACleanSeatIsSquare) {
  const Rest rest = rest_on({}, 65);
  EXPECT_EQ(rest.centre_um, 0);
  EXPECT_EQ(runout_um_of(rest.tilt, 100), 0);
}

TEST(Seating, OneBumpTiltsByItsHeightOverTheWayToTheFarEdge) {
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    Random random(seed);
    const Bump bump{.height_um = 5 + 200 * random.uniform(),
                    .radius_mm = 10 + 55 * random.uniform(),
                    .angle_deg = 360 * random.uniform()};
    const Rest rest = rest_on({bump}, 65);
    EXPECT_NEAR(runout_um_of(rest.tilt, 100), 200 * bump.height_um / (bump.radius_mm + 65), 1e-9);
    EXPECT_LT(apart_deg(high_deg_of(rest.tilt), bump.angle_deg), 1e-9);
    EXPECT_NEAR(rest.centre_um + tilt_um(rest.tilt, bump.radius_mm, bump.angle_deg), bump.height_um, 1e-9);
    EXPECT_NEAR(rest.centre_um + tilt_um(rest.tilt, 65, bump.angle_deg + 180), 0, 1e-9);
  }
}

TEST(Seating, ThreeBumpsCarryAPlaneThatHasTheCentreBetweenThem) {
  const std::vector<Bump> bumps{{.height_um = 50, .radius_mm = 60, .angle_deg = 0},
                                {.height_um = 80, .radius_mm = 60, .angle_deg = 120},
                                {.height_um = 71, .radius_mm = 60, .angle_deg = 240}};
  const Rest rest = rest_on(bumps, 65);
  EXPECT_NEAR(rest.centre_um, 67, 1e-9);
  for (const Bump& bump : bumps) {
    EXPECT_NEAR(rest.centre_um + tilt_um(rest.tilt, bump.radius_mm, bump.angle_deg), bump.height_um, 1e-9);
  }
}

TEST(Seating, OnTwoEqualBumpsAcrossItSitsInTheMiddleOfItsRocking) {
  const Rest rest = rest_on(
      {{.height_um = 40, .radius_mm = 50, .angle_deg = 30}, {.height_um = 40, .radius_mm = 50, .angle_deg = 210}}, 65);
  EXPECT_NEAR(rest.centre_um, 40, 1e-9);
  EXPECT_NEAR(runout_um_of(rest.tilt, 100), 0, 1e-6);
}

TEST(Seating, NoOtherPlaneOverTheBumpsIsLowerInTheMiddle) {
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    Random random(seed);
    std::vector<Bump> bumps(1 + random.below(6));
    for (Bump& bump : bumps) {
      bump = {
          .height_um = 100 * random.uniform(), .radius_mm = 65 * random.uniform(), .angle_deg = 360 * random.uniform()};
    }
    const auto lowest_centre = [&](const Tilt& tilt) {
      double centre = runout_um_of(tilt, 65) / 2;
      for (const Bump& bump : bumps) {
        centre = std::max(centre, bump.height_um - tilt_um(tilt, bump.radius_mm, bump.angle_deg));
      }
      return centre;
    };
    const Rest rest = rest_on(bumps, 65);
    EXPECT_NEAR(lowest_centre(rest.tilt), rest.centre_um, 1e-9);
    for (int i = 0; i < 72; ++i) {
      for (double size : {0.001, 0.1, 2.0}) {
        EXPECT_GE(lowest_centre(rest.tilt + tilt_of(size, 1, 5 * i)), rest.centre_um - 1e-8) << "seed " << seed;
      }
    }
  }
}

TEST(Seating, RustOfOneThouAtTheFlangesEdgeGivesTheRunoutThatIsKnownOfIt) {
  // Rotor radius over flange radius, 130/70, times the film: plane geometry, as worked out in the trade.
  const Rest rest = rest_on({{.height_um = 25.4, .radius_mm = 70, .angle_deg = 0}}, 70);
  EXPECT_NEAR(runout_um_of(rest.tilt, 130) / 25.4, 130.0 / 70, 1e-12);
}

TEST(Seating, WhatIsNotOnTheSeatIsRefusedByItsName) {
  EXPECT_EQ(refusal_of([] { rest_on({}, 0.5); }), "out_of_range seat_radius_mm");
  EXPECT_EQ(refusal_of([] {
              rest_on({{.height_um = 1}, {.height_um = 1001}}, 65);
            }),
            "out_of_range bumps[1].height_um");
  EXPECT_EQ(refusal_of([] { rest_on({{.height_um = 1, .radius_mm = 66}}, 65); }), "out_of_range bumps[0].radius_mm");
  EXPECT_EQ(refusal_of([] { rest_on({{.height_um = 1, .angle_deg = NAN}}, 65); }), "out_of_range bumps[0].angle_deg");
  EXPECT_EQ(refusal_of([] { rest_on(std::vector<Bump>(17), 65); }), "too_many bumps");
}

}  // namespace
}  // namespace brakewright::bench_sim
