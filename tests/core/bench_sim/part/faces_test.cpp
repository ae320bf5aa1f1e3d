#include "core/bench_sim/part/faces.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include "tests/core/bench_sim/benches.hpp"
#include "tests/core/bench_sim/refusal.hpp"

namespace brakewright::bench_sim {
namespace {

SimPart flat_part() {
  SimPart part;
  part.grid = {.angles = 360, .rings = 11, .inner_radius_mm = 90, .ring_step_mm = 5};
  part.nominal_thickness_mm = 25;
  part.outboard.height_um.assign(part.grid.cells(), 0);
  part.inboard.height_um.assign(part.grid.cells(), 0);
  part.hardness.assign(part.grid.cells(), 1);
  return part;
}

void lean(SimPart& part, Side side, const Tilt& tilt, double sign) {
  for (int r = 0; r < part.grid.rings; ++r) {
    for (int a = 0; a < part.grid.angles; ++a) {
      part.face(side).height_um[part.grid.at(r, a)] =
          stored_um(sign * tilt_um(tilt, part.grid.radius_mm(r), part.grid.angle_deg(a)));
    }
  }
}

TEST(SimFaces, BothFacesLeaningTogetherAreRunoutAndNoVariation) {
  SimPart part = flat_part();
  const Tilt tilt = tilt_of(60, 120, 37);
  lean(part, Side::outboard, tilt, 1);
  lean(part, Side::inboard, tilt, -1);
  EXPECT_NEAR(face_runout_um(part, Side::outboard, 120), 60, 0.01);
  EXPECT_NEAR(face_runout_um(part, Side::inboard, 120), 60, 0.01);
  EXPECT_EQ(ring_thickness(part, 120).variation_um, 0);
  EXPECT_EQ(ring_thickness(part, 120).mean_mm, 25);
}

TEST(SimFaces, OneFaceLeaningAloneIsVariationOnceATurn) {
  SimPart part = flat_part();
  lean(part, Side::outboard, tilt_of(60, 120, 37), 1);
  const ThicknessTruth found = ring_thickness(part, 120);
  EXPECT_NEAR(found.variation_um, 60, 0.01);
  EXPECT_NEAR(found.max_mm, 25.030, 1e-5);
  EXPECT_NEAR(found.min_mm, 24.970, 1e-5);
  EXPECT_EQ(face_runout_um(part, Side::inboard, 120), 0);
  const auto map = thickness_map_mm(part);
  EXPECT_EQ(map[part.grid.at(6, 37)], found.max_mm);
  EXPECT_EQ(map[part.grid.at(6, 37)], thickness_mm(part, 6, 37));
}

TEST(SimFaces, HeightsBetweenTheKeptOnesAreLinear) {
  SimPart part = flat_part();
  part.outboard.height_um[part.grid.at(2, 359)] = 8;
  part.outboard.height_um[part.grid.at(2, 0)] = 4;
  EXPECT_EQ(height_um_at(part.grid, part.outboard, 100, 359), 8);
  EXPECT_EQ(height_um_at(part.grid, part.outboard, 100, 359.5), 6);
  EXPECT_EQ(height_um_at(part.grid, part.outboard, 102.5, -0.5), 3);
  EXPECT_EQ(height_um_at(part.grid, part.outboard, 97.5, 720), 2);
  EXPECT_EQ(height_um_at(part.grid, part.outboard, 140, 0), 0);
}

TEST(SimFaces, AMotionRaisesOneSideByWhatItLowersTheOther) {
  const Motion motion{.axial_um = 12, .tilt = tilt_of(80, 100, 90)};
  for (double angle : {0.0, 90.0, 123.0, 270.0}) {
    const double raised = raise_um(motion, Side::outboard, 130, angle);
    EXPECT_EQ(raised, -raise_um(motion, Side::inboard, 130, angle));
    EXPECT_NEAR(raised, 12 + 52 * std::sin(angle * std::numbers::pi / 180), 1e-12);
  }
}

TEST(SimFaces, ATiltKeepsItsSizeAndItsPlaceWhenTheAnglesAreNamedAnew) {
  const Tilt tilt = tilt_of(50, 125, 300);
  EXPECT_NEAR(high_deg_of(turned(tilt, 100)), 40, 1e-9);
  EXPECT_NEAR(runout_um_of(turned(tilt, 100), 125), 50, 1e-12);
  EXPECT_NEAR(tilt_um(turned(tilt, 100), 80, 200), tilt_um(tilt, 80, 100), 1e-12);
  EXPECT_NEAR(runout_um_of(tilt + turned(tilt, 180), 125), 0, 1e-12);
  EXPECT_EQ(high_deg_of(Tilt{}), 0);
  EXPECT_NEAR(high_deg_of(-tilt), 120, 1e-9);
}

TEST(SimFaces, AKeptHeightIsTheNearestOfItsSteps) {
  for (double height : {0.0, 0.4 / 1024, -0.4 / 1024, 123.456, -987.654, 15999.9}) {
    EXPECT_LE(std::abs(static_cast<double>(stored_um(height)) - height), 0.5 / 1024);
    EXPECT_EQ(std::fmod(static_cast<double>(stored_um(height)) * 1024, 1), 0);
  }
}

TEST(SimFaces, TheRefusalNamesWhatIsWrong) {
  const auto grid_with = [](auto change) {
    return refusal_of([&] {
      SimPart part = flat_part();
      change(part);
      check(part);
    });
  };
  EXPECT_EQ(grid_with([](SimPart&) {}), "accepted");
  EXPECT_EQ(grid_with([](SimPart& part) { part.grid.angles = 35; }), "out_of_range grid.angles");
  EXPECT_EQ(grid_with([](SimPart& part) { part.grid.rings = 1; }), "out_of_range grid.rings");
  EXPECT_EQ(grid_with([](SimPart& part) { part.grid = {.angles = 3600, .rings = 2223}; }), "out_of_range grid.rings");
  EXPECT_EQ(grid_with([](SimPart& part) { part.grid.inner_radius_mm = 0; }), "out_of_range grid.inner_radius_mm");
  EXPECT_EQ(grid_with([](SimPart& part) { part.grid.ring_step_mm = std::numeric_limits<double>::quiet_NaN(); }),
            "out_of_range grid.ring_step_mm");
  EXPECT_EQ(grid_with([](SimPart& part) { part.inboard.height_um.pop_back(); }), "sizes_differ inboard");
  EXPECT_EQ(grid_with([](SimPart& part) { part.hardness.clear(); }), "sizes_differ hardness");
  const SimPart part = flat_part();
  EXPECT_EQ(refusal_of([&] { ring_thickness(part, 142.6); }), "out_of_range radius_mm");
  EXPECT_EQ(refusal_of([&] { face_runout_um(part, Side::inboard, 80); }), "out_of_range radius_mm");
  EXPECT_EQ(refusal_of([&] { height_um_at(part.grid, part.outboard, 140.1, 0); }), "out_of_range radius_mm");
  EXPECT_EQ(refusal_of([&] { height_um_at(part.grid, part.outboard, 100, INFINITY); }), "out_of_range angle_deg");
}

}  // namespace
}  // namespace brakewright::bench_sim
