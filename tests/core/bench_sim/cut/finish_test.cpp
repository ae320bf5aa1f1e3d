#include "core/bench_sim/cut/finish.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "core/bench_sim/cut/trace.hpp"
#include "core/uncertainty/random.hpp"
#include "tests/core/bench_sim/flat_part.hpp"
#include "tests/core/bench_sim/refusal.hpp"

namespace brakewright::bench_sim {
namespace {

TEST(CutFinish, OfASineAlongTheRadiusItIsTheClosedFormWhateverTheFaceLeans) {
  SimPart part = flat_part({.angles = 36, .rings = 2001, .inner_radius_mm = 100, .ring_step_mm = 0.005});
  for (int ring = 0; ring < part.grid.rings; ++ring) {
    const double place = ring * 0.005;
    part.inboard.height_um[part.grid.at(ring, 5)] =
        static_cast<float>(3 * std::cos(2 * std::numbers::pi * place / 0.25) + 0.5 * place - 40);
  }
  const RadialFinish finish = radial_finish(part.grid, part.inboard, 5, 100, 110);
  EXPECT_NEAR(finish.ra_um, 2 * 3 / std::numbers::pi, 0.005);
  EXPECT_NEAR(finish.rt_um, 6, 0.01);
  EXPECT_EQ(radial_finish(part.grid, part.inboard, 6, 100, 110).rt_um, 0);
}

TEST(CutFinish, MarksOfEachNumberToATurnAreFoundWithTheirHeight) {
  Random random(81);
  for (int trial = 0; trial < 200; ++trial) {
    const int angles = trial % 3 == 0 ? 3600 : trial % 3 == 1 ? 1910 : 720;
    SimPart part = flat_part({.angles = angles, .rings = 3, .inner_radius_mm = 100, .ring_step_mm = 1});
    const double per_turn = 20 + (angles / 3.2 - 20) * random.uniform(), height_um = 2 + 8 * random.uniform();
    for (int angle = 0; angle < angles; ++angle) {
      const double turn = 2 * std::numbers::pi * angle / angles;
      part.outboard.height_um[part.grid.at(1, angle)] =
          static_cast<float>(30 * std::cos(turn - 1) + 4 * std::cos(3 * turn) +
                             height_um / 2 * std::cos(per_turn * turn) + 0.3 * random.normal());
    }
    const auto marks = face_marks(part.grid, part.outboard, 101);
    ASSERT_TRUE(marks) << per_turn;
    EXPECT_NEAR(marks->per_turn, per_turn, 0.1);
    EXPECT_NEAR(marks->height_um / height_um, 1, 0.1);
  }
}

TEST(CutFinish, RoughnessAloneHasNoMarks) {
  Random random(82);
  int found = 0;
  for (int trial = 0; trial < 300; ++trial) {
    SimPart part = flat_part({.angles = 360, .rings = 2, .inner_radius_mm = 100, .ring_step_mm = 1});
    for (int angle = 0; angle < 360; ++angle) {
      part.outboard.height_um[part.grid.at(0, angle)] = static_cast<float>(random.normal());
    }
    found += face_marks(part.grid, part.outboard, 100).has_value();
  }
  EXPECT_LE(found, 3);
}

TEST(CutFinish, AFlatFaceHasNoMarks) {
  const SimPart part = flat_part({.angles = 360, .rings = 2, .inner_radius_mm = 100, .ring_step_mm = 1});
  EXPECT_FALSE(face_marks(part.grid, part.outboard, 100));
}

TEST(CutFinish, RefusalsNameTheirField) {
  const SimPart part = flat_part({.angles = 72, .rings = 20, .inner_radius_mm = 100, .ring_step_mm = 0.1});
  EXPECT_EQ(refusal_of([&] { radial_finish(part.grid, part.outboard, 72, 100, 102); }), "out_of_range angle");
  EXPECT_EQ(refusal_of([&] { radial_finish(part.grid, part.outboard, 0, 100, 100.3); }), "out_of_range to_radius_mm");
  EXPECT_EQ(refusal_of([&] { face_marks(part.grid, part.outboard, 101); }), "out_of_range grid.angles");
  const SimPart fine = flat_part({.angles = 360, .rings = 2, .inner_radius_mm = 100, .ring_step_mm = 1});
  EXPECT_EQ(refusal_of([&] { face_marks(fine.grid, fine.outboard, 90); }), "out_of_range radius_mm");
}

TEST(CutTrace, ATurnInShortIsWhatItsAnglesSay) {
  const CutTrace trace{
      .thrust_n = {0, 10, 30, 0}, .give_um = {-1, 0, 4, 1}, .thickest_um = {0, 2, 9, 0}, .taken_um = {0, 0, 20, 0}};
  const TurnReport report = report_of(trace);
  EXPECT_DOUBLE_EQ(report.mean_thrust_n, 10);
  EXPECT_DOUBLE_EQ(report.most_thrust_n, 30);
  EXPECT_DOUBLE_EQ(report.swing_um, 5);
  EXPECT_DOUBLE_EQ(report.thickest_um, 9);
  EXPECT_DOUBLE_EQ(report.contact_share, 0.5);
  EXPECT_DOUBLE_EQ(report.rub_share, 0.5);
  EXPECT_FALSE(report.rubs);
  EXPECT_EQ(in_time_order(trace.thrust_n, 3), (std::vector<float>{0, 0, 10, 30}));
  EXPECT_EQ(report_of({}).contact_share, 0);
}

}  // namespace
}  // namespace brakewright::bench_sim
