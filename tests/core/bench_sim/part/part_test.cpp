#include "core/bench_sim/part/part.hpp"

#include <gtest/gtest.h>

#include <limits>
#include <set>

#include "tests/core/bench_sim/benches.hpp"
#include "tests/core/bench_sim/refusal.hpp"

namespace brakewright::bench_sim {
namespace {

TEST(SimPart, TheSameSeedGivesTheSamePartToTheLastBit) {
  EXPECT_EQ(hash_of(coarse_part(20261126).part), 1798683734186586725ULL);
  std::uint64_t forty = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) forty = 31 * forty + hash_of(coarse_part(seed).part);
  EXPECT_EQ(forty, 4381946562492414944ULL);
  EXPECT_EQ(hash_of(coarse_part(7).part), hash_of(coarse_part(7).part));
}

TEST(SimPart, DifferentSeedsGiveDifferentParts) {
  std::set<std::uint64_t> hashes;
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) hashes.insert(hash_of(coarse_part(seed).part));
  EXPECT_EQ(hashes.size(), kSeeds);
}

TEST(SimPart, EveryDrawnPartIsWholeAndWithinItsLimits) {
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    const DrawnPart drawn = coarse_part(seed, static_cast<int>(seed % 6));
    check(drawn.part);
    const SimPart& part = drawn.part;
    EXPECT_LT(part.limits.discard_mm, part.limits.machine_to_mm);
    EXPECT_GT(part.nominal_thickness_mm, part.limits.machine_to_mm - 0.1001);
    EXPECT_GE(std::min(part.shape.outboard_cheek_mm, part.shape.inboard_cheek_mm), 0.5);
    EXPECT_NEAR(part.shape.outboard_cheek_mm + part.shape.vent_mm + part.shape.inboard_cheek_mm,
                part.nominal_thickness_mm, 1e-9);
    EXPECT_LT(part.shape.seat.flat_inner_mm, part.shape.seat.flat_outer_mm);
    EXPECT_GT(*std::min_element(part.hardness.begin(), part.hardness.end()), 0.999f);
  }
}

TEST(SimPart, NothingIsWrongWithAPartOfNoDifficulty) {
  for (std::uint64_t seed = 1; seed <= 50; ++seed) {
    const DrawnPart drawn = coarse_part(seed, 0);
    const double middle = drawn.part.grid.radius_mm(drawn.part.grid.rings / 2);
    EXPECT_EQ(face_runout_um(drawn.part, Side::outboard, middle), 0);
    EXPECT_EQ(ring_thickness(drawn.part, middle).variation_um, 0);
    EXPECT_FALSE(drawn.truth.grooves || drawn.truth.wobble || drawn.truth.hard_spots || drawn.truth.seat);
  }
}

TEST(SimPart, EveryFaultIsDrawnAsOftenAsItIsSaidToBe) {
  int wobble = 0, grooves = 0, spots = 0, lip = 0;
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    const PartFaults faults = faults_of_seed(seed, 3, {}, make_of_seed(seed));
    wobble += faults.wobble.has_value();
    grooves += faults.grooves.has_value();
    spots += faults.hard_spots.has_value();
    lip += faults.lip.has_value();
  }
  for (int count : {wobble, grooves, spots, lip}) EXPECT_NEAR(count, 0.56 * kSeeds, 45);  // four standard deviations
}

TEST(SimPart, AChosenFaultLeavesTheOthersAsTheSeedHasThem) {
  const PartMake make = make_of_seed(11);
  const PartFaults drawn = faults_of_seed(11, 5, {}, make);
  PartFaults wished;
  wished.wobble = Lean{.runout_um = 77, .high_deg = 12};
  wished.grooves = std::vector<Groove>{};
  const PartFaults faults = faults_of_seed(11, 5, wished, make);
  EXPECT_EQ(faults.wobble->runout_um, 77);
  EXPECT_TRUE(faults.grooves->empty());
  EXPECT_EQ(faults.thickness_mm, drawn.thickness_mm);
  EXPECT_EQ(faults.taper_um, drawn.taper_um);
  EXPECT_EQ(faults.variation.has_value(), drawn.variation.has_value());
  EXPECT_EQ(faults.lip.has_value(), drawn.lip.has_value());
}

TEST(SimPart, ItsFaultsDoNotDependOnItsGrid) {
  PartWish wish{.seed = 3, .difficulty = 5, .angles = 360, .ring_step_mm = 2};
  const SimPart coarse = part_of_seed(wish).part;
  wish.angles = 720;
  wish.ring_step_mm = 0.5;
  const SimPart fine = part_of_seed(wish).part;
  for (int r = 0; r < coarse.grid.rings; ++r) {
    for (int a = 0; a < 360; a += 17) {
      for (Side side : {Side::outboard, Side::inboard}) {
        EXPECT_EQ(coarse.face(side).height_um[coarse.grid.at(r, a)],
                  fine.face(side).height_um[fine.grid.at(4 * r, 2 * a)]);
      }
    }
  }
}

TEST(SimPart, EachFaultStandsInTheFacesWithItsSize) {
  PartFaults faults;
  faults.thickness_mm = 24;
  faults.wobble = Lean{.runout_um = 100, .high_deg = 40};
  SimPart part = plain_part(faults);
  EXPECT_NEAR(face_runout_um(part, Side::outboard, 100), 100, 0.002);
  EXPECT_NEAR(height_um_at(part.grid, part.outboard, 100, 40), 50, 0.001);
  EXPECT_NEAR(height_um_at(part.grid, part.inboard, 100, 40), -50, 0.001);

  faults = {.variation =
                ThicknessWaves{.waves = {{.order = 2, .amplitude_um = 10, .phase_deg = 60}}, .outboard_share = 0.75}};
  part = plain_part(faults);
  EXPECT_NEAR(ring_thickness(part, 90).variation_um, 20, 0.005);
  EXPECT_NEAR(thickness_mm(part, 30, 30), 24.010, 1e-6);
  EXPECT_NEAR(height_um_at(part.grid, part.outboard, 100, 30), 7.5, 0.001);

  part = plain_part({.taper_um = 46});
  EXPECT_NEAR(ring_thickness(part, 123).mean_mm - ring_thickness(part, 77).mean_mm, 0.046, 1e-6);
  EXPECT_NEAR(ring_thickness(part, 100).mean_mm, 24, 1e-6);

  part = plain_part(
      {.grooves = std::vector<Groove>{{.side = Side::inboard, .radius_mm = 101, .width_mm = 4, .depth_um = 300}}});
  EXPECT_NEAR(height_um_at(part.grid, part.inboard, 101, 200), -300, 0.001);
  EXPECT_NEAR(height_um_at(part.grid, part.inboard, 102, 10), -150, 0.001);
  EXPECT_EQ(height_um_at(part.grid, part.inboard, 103, 10), 0);
  EXPECT_EQ(height_um_at(part.grid, part.outboard, 101, 10), 0);

  part = plain_part({.cheek_difference_mm = 0.8});
  EXPECT_NEAR(part.shape.outboard_cheek_mm, 8.4, 1e-12);
  EXPECT_NEAR(part.shape.inboard_cheek_mm, 7.6, 1e-12);

  part = plain_part({.seat = Lean{.runout_um = 26, .high_deg = 200}});
  EXPECT_NEAR(runout_um_of(part.seat_tilt, 100), 40, 1e-9);
  EXPECT_NEAR(high_deg_of(part.seat_tilt), 200, 1e-9);
}

TEST(SimPart, AWishIsRefusedByTheNameOfItsField) {
  const auto with = [](auto change) {
    return refusal_of([&] {
      PartWish wish{.seed = 1, .difficulty = 0, .make = plain_make(), .angles = 36, .ring_step_mm = 5};
      change(wish);
      part_of_seed(wish);
    });
  };
  constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(with([](PartWish&) {}), "accepted");
  EXPECT_EQ(with([](PartWish& w) { w.difficulty = 6; }), "out_of_range difficulty");
  EXPECT_EQ(with([](PartWish& w) { w.angles = 4000; }), "out_of_range grid.angles");
  EXPECT_EQ(with([](PartWish& w) { w.ring_step_mm = 60; }), "out_of_range grid.ring_step_mm");
  EXPECT_EQ(with([](PartWish& w) { w.ring_step_mm = 0.002; }), "out_of_range grid.rings");
  EXPECT_EQ(with([](PartWish& w) { w.faults.thickness_mm = 26; }), "out_of_range faults.thickness_mm");
  EXPECT_EQ(with([](PartWish& w) { w.faults.wobble = Lean{.runout_um = kNaN}; }), "not_finite faults.wobble.runout_um");
  EXPECT_EQ(with([](PartWish& w) { w.faults.seat = Lean{.high_deg = 360}; }), "out_of_range faults.seat.high_deg");
  EXPECT_EQ(with([](PartWish& w) { w.faults.taper_um = -1001; }), "out_of_range faults.taper_um");
  EXPECT_EQ(with([](PartWish& w) { w.faults.variation = ThicknessWaves{.waves = {{.order = 17}}}; }),
            "out_of_range faults.variation.waves[0].order");
  EXPECT_EQ(with([](PartWish& w) { w.faults.variation = ThicknessWaves{.outboard_share = 1.1}; }),
            "out_of_range faults.variation.outboard_share");
  EXPECT_EQ(with([](PartWish& w) {
              w.faults.grooves = {{.radius_mm = 100, .width_mm = 1}, {.radius_mm = 60}};
            }),
            "out_of_range faults.grooves[1].radius_mm");
  EXPECT_EQ(with([](PartWish& w) { w.faults.grooves = std::vector<Groove>(201); }), "too_many faults.grooves");
  EXPECT_EQ(with([](PartWish& w) { w.faults.lip = EdgeLip{.inboard_um = -1}; }), "out_of_range faults.lip.inboard_um");
  EXPECT_EQ(with([](PartWish& w) { w.faults.hard_spots = {{.radius_mm = 100, .diameter_mm = 9, .hardness = 0}}; }),
            "out_of_range faults.hard_spots[0].hardness");
  EXPECT_EQ(with([](PartWish& w) { w.faults.cheek_difference_mm = 16.5; }), "out_of_range faults.cheek_difference_mm");
  EXPECT_EQ(with([](PartWish& w) { w.make->inner_radius_mm = 122; }), "out_of_range make.inner_radius_mm");
  EXPECT_EQ(with([](PartWish& w) { w.make->shape.band_outer_radius_mm = 126; }),
            "out_of_range make.shape.band_outer_radius_mm");
  EXPECT_EQ(with([](PartWish& w) { w.make->limits.machine_to_mm = 22; }), "out_of_range make.limits.machine_to_mm");
  EXPECT_EQ(refusal_of([] { part_of_faults(plain_make(), {}, 36, 5); }), "missing faults.thickness_mm");
}

}  // namespace
}  // namespace brakewright::bench_sim
