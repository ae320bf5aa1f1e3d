#include "core/bench_sim/mount/mounting.hpp"

#include <gtest/gtest.h>

#include <set>

#include "core/separation/separation.hpp"
#include "core/uncertainty/random.hpp"
#include "tests/core/bench_sim/benches.hpp"
#include "tests/core/bench_sim/refusal.hpp"

namespace brakewright::bench_sim {
namespace {

/// Any mount of a seed: dirt on both seats, a bent arbor, a wrong cone, seating that scatters.
MountInput any_mount(std::uint64_t seed) {
  Random random(seed);
  MountInput input{.turn_deg = 360 * random.uniform(), .seat_radius_mm = 65, .seed = seed};
  for (std::uint64_t i = random.below(4); i > 0; --i) {
    const Bump bump{
        .height_um = 80 * random.uniform(), .radius_mm = 65 * random.uniform(), .angle_deg = 360 * random.uniform()};
    input.faults.dirt.push_back({.bump = bump, .on_the_part = random.uniform() < 0.5});
  }
  input.faults.arbor = {.shoulder_runout_um = 30 * random.uniform(), .high_deg = 360 * random.uniform()};
  input.faults.bore_offset_mm = random.uniform();
  input.faults.bore_offset_deg = 360 * random.uniform();
  input.faults.seating_sd_um = 20 * random.uniform();
  return input;
}

TEST(Mounting, ACleanTrueMountLeavesThePartAsItSitsOnTheHub) {
  const SimPart part = plain_part({.wobble = Lean{.runout_um = 60, .high_deg = 10}});
  const Mounting mounting = mount_of(part, {.turn_deg = 77});
  EXPECT_EQ(mounting.motion.axial_um, 0);
  EXPECT_EQ(runout_um_of(mounting.motion.tilt, 100), 0);
  EXPECT_TRUE(mounting.slips.empty());
  for (double angle : {0.0, 33.0, 190.0}) {
    EXPECT_EQ(bench_height_um(part, mounting.motion, Side::inboard, 100, angle),
              height_um_at(part.grid, part.inboard, 100, angle));
  }
}

TEST(Mounting, AnyMountsTiltComesOutOfAPlaneCutAsRunoutAgainstTheHubAndNoVariation) {
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    SimPart part = coarse_part(seed).part;
    const Motion motion = mount_of(part, any_mount(seed)).motion;
    cut_planes(part, motion);
    const Tilt left = tilt_after_cut(motion);
    for (double from_edge : {4.0, 20.0, 40.0}) {
      const double radius = part.grid.radius_mm(ring_near(part.grid, part.grid.outer_radius_mm() - from_edge));
      const double runout = runout_um_of(left, radius);
      // The grid's 180 angles miss the very top by 1 - cos(1 degree) at most.
      EXPECT_NEAR(face_runout_um(part, Side::outboard, radius), runout, 2e-4 * runout + 0.002) << "seed " << seed;
      EXPECT_NEAR(face_runout_um(part, Side::inboard, radius), runout, 2e-4 * runout + 0.002) << "seed " << seed;
      EXPECT_LT(ring_thickness(part, radius).variation_um, 0.0021) << "seed " << seed;
      const double high = height_um_at(part.grid, part.outboard, radius, high_deg_of(left));
      EXPECT_NEAR(high - height_um_at(part.grid, part.outboard, radius, high_deg_of(left) + 180), runout,
                  2e-3 * runout + 0.002);
    }
  }
}

TEST(Mounting, AfterThatCutTheBenchSeesNoRunoutWhileThePartStaysOn) {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    SimPart part = coarse_part(seed).part;
    MountInput input = any_mount(seed);
    input.faults.bore_offset_mm = 0;  // between rings and angles a plane is kept to a few hundredths of a um only
    const Motion motion = mount_of(part, input).motion;
    cut_planes(part, motion);
    const double radius = part.grid.radius_mm(10);
    double low = 1e300, high = -1e300;
    for (int a = 0; a < part.grid.angles; ++a) {
      const double height = bench_height_um(part, motion, Side::outboard, radius, part.grid.angle_deg(a));
      low = std::min(low, height);
      high = std::max(high, height);
    }
    EXPECT_LT(high - low, 0.0011) << "seed " << seed;
  }
}

TEST(Mounting, DirtUnderThePartTiltsItAsGeometrySaysOnTheSideItLies) {
  const SimPart part = plain_part();
  MountInput input{.turn_deg = 90};
  input.faults.dirt = {{.bump = {.height_um = 50, .radius_mm = 60, .angle_deg = 100}}};
  const Motion motion = mount_of(part, input).motion;
  EXPECT_NEAR(runout_um_of(motion.tilt, 100), 2 * 100 * 50.0 / (60 + 65), 1e-9);
  EXPECT_NEAR(high_deg_of(motion.tilt), 10, 1e-9);  // stuck to the adapter: 100 degrees of the arbor
  input.faults.dirt[0].on_the_part = true;
  EXPECT_NEAR(high_deg_of(mount_of(part, input).motion.tilt), 100, 1e-9);
  input.seat_radius_mm = 61;
  EXPECT_NEAR(runout_um_of(mount_of(part, input).motion.tilt, 100), 2 * 100 * 50.0 / (60 + 61), 1e-9);
}

TEST(Mounting, TwoScratchesTellThePartsShareFromTheMounts) {
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    Random random(seed);
    const Lean wobble{.runout_um = 20 + 200 * random.uniform(), .high_deg = 360 * random.uniform()};
    const SimPart part = plain_part({.wobble = wobble});
    MountInput input;
    input.faults.arbor = {
        .shoulder_runout_um = 5 + 60 * random.uniform(), .shoulder_radius_mm = 30, .high_deg = 360 * random.uniform()};
    const Motion first = mount_of(part, input).motion;
    input.turn_deg = 180;
    const Motion second = mount_of(part, input).motion;
    const ScratchReading read = read_scratches(
        {scratch_of(part, first, Side::outboard, 100, 5), scratch_of(part, second, Side::outboard, 100, 5)});
    const double mount = input.faults.arbor.shoulder_runout_um * 100 / 30;
    if (!read.part) {  // the two nearly cancel in one position: its scratch goes all the way round
      EXPECT_TRUE(read.marks[0].upper_bound || read.marks[1].upper_bound);
      continue;
    }
    EXPECT_NEAR(read.part->runout_um, wobble.runout_um, 0.03 * (wobble.runout_um + mount)) << "seed " << seed;
    EXPECT_NEAR(read.mount->runout_um, mount, 0.03 * (wobble.runout_um + mount)) << "seed " << seed;
    if (wobble.runout_um > 0.5 * mount) {
      EXPECT_LT(apart_deg(read.part->high_deg, wobble.high_deg), 4);
    }
    if (mount > 0.5 * wobble.runout_um) {
      EXPECT_LT(apart_deg(read.mount->high_deg, input.faults.arbor.high_deg), 4);
    }
  }
}

TEST(Mounting, ThreePositionsTellThePartFromTheArborAndTheCutFollowsThem) {
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    Random random(seed);
    const Lean wobble{.runout_um = 200 * random.uniform(), .high_deg = 360 * random.uniform()};
    const SimPart part = plain_part({.wobble = wobble, .seat = Lean{.runout_um = 20, .high_deg = 70}});
    MountInput input;
    input.faults.arbor = {.shoulder_runout_um = 60 * random.uniform(), .high_deg = 360 * random.uniform()};
    input.faults.dirt = {{.bump = {.height_um = 40, .radius_mm = 50, .angle_deg = 360 * random.uniform()}}};
    SeparationInput separation;
    separation.max_order = 1;
    Tilt spindles, own;
    for (double turn : {0.0, 120.0, 240.0}) {
      input.turn_deg = turn;
      const Motion motion = mount_of(part, input).motion;
      PositionTrace position{.turn_deg = turn};
      for (double angle : even_angles(12)) {
        position.trace.angles_deg.push_back(angle + turn);
        position.trace.values_um.push_back(bench_height_um(part, motion, Side::outboard, 100, angle));
      }
      separation.positions.push_back(position);
      if (turn == 0) {
        own = part.seat_tilt + tilt_of(wobble.runout_um, 100, wobble.high_deg);
        spindles = motion.tilt + -part.seat_tilt;
      }
    }
    const Separation found = separate(separation);
    EXPECT_NEAR(found.carrier_runout_um, runout_um_of(spindles, 100), 0.01) << "seed " << seed;
    EXPECT_NEAR(found.part_runout_um, runout_um_of(own, 100), 0.01) << "seed " << seed;
    if (found.part_runout_um > 1) {
      EXPECT_LT(apart_deg(found.part[0].phase_deg, high_deg_of(own)), 0.1);
    }
    if (found.carrier_runout_um > 1) {
      EXPECT_LT(apart_deg(found.carrier[0].phase_deg, high_deg_of(spindles)), 0.1);
    }
  }
}

TEST(Mounting, AWrongConeLetsTheRimOrbitByTwiceItsOffset) {
  const SimPart part = plain_part();
  MountInput input{.turn_deg = 30};
  input.faults.bore_offset_mm = 0.2;
  input.faults.bore_offset_deg = 100;
  const Motion motion = mount_of(part, input).motion;
  EXPECT_NEAR(rim_height_um(part, motion, 70), 200, 1e-6);
  EXPECT_NEAR(rim_height_um(part, motion, 250), -200, 1e-6);
  EXPECT_NEAR(rim_height_um(part, motion, 160), -1000 * 0.2 * 0.2 / (2 * 125), 1e-3);
  EXPECT_EQ(bench_height_um(part, motion, Side::outboard, 100, 250), 0);  // the face stays true
}

TEST(Mounting, AnEccentricPartShowsTheBenchOtherPlacesOfIt) {
  const SimPart part = plain_part(
      {.grooves = std::vector<Groove>{{.side = Side::outboard, .radius_mm = 100, .width_mm = 4, .depth_um = 100}},
       .hard_spots = std::vector<HardSpot>{{.angle_deg = 90, .radius_mm = 110, .diameter_mm = 8, .height_um = 60}}});
  MountInput input;
  input.faults.bore_offset_mm = 1;
  const Motion motion = mount_of(part, input).motion;
  EXPECT_NEAR(bench_height_um(part, motion, Side::outboard, 101, 0), -100, 1e-6);
  EXPECT_NEAR(bench_height_um(part, motion, Side::outboard, 99, 180), -100, 1e-6);
  EXPECT_NEAR(bench_height_um(part, motion, Side::outboard, 101, 180), 0, 1e-6);
  // 1 mm along 0 degrees and 110 mm along 90.
  const double spot_deg = std::atan2(110, 1) * 180 / std::numbers::pi;
  EXPECT_NEAR(bench_height_um(part, motion, Side::inboard, std::hypot(110, 1), spot_deg), 30, 1e-6);
}

TEST(Mounting, RacesThatArePittedSeatAnewEachTime) {
  const SimPart part = plain_part();
  MountInput input;
  input.faults.seating_sd_um = 30;
  double sum = 0;
  std::set<double> seen;
  for (std::uint64_t number = 0; number < kSeeds; ++number) {
    input.number = number;
    const double half = runout_um_of(mount_of(part, input).motion.tilt, 100) / 2;
    EXPECT_EQ(half, runout_um_of(mount_of(part, input).motion.tilt, 100) / 2);
    seen.insert(half);
    sum += half * half;
  }
  EXPECT_EQ(seen.size(), kSeeds);
  // Two components of variance 30^2 each; the mean square scatters by 1/sqrt(500).
  EXPECT_NEAR(sum / kSeeds / (2 * 30 * 30), 1, 4 / std::sqrt(kSeeds));
}

TEST(Mounting, ALooseNutJumpsAtTimesOfTheSeedAndRestsBetween) {
  const SimPart part = plain_part();
  MountInput input;
  input.faults.nut = LooseNut{.axial_sd_um = 20, .tilt_sd_um = 10, .mean_turns = 50};
  double slips = 0, squares = 0;
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    input.seed = seed;
    const Mounting mounting = mount_of(part, input);
    ASSERT_FALSE(mounting.slips.empty());
    slips += static_cast<double>(mounting.slips.size());
    EXPECT_EQ(motion_at(mounting, 0).axial_um, mounting.motion.axial_um);
    const Slip& third = mounting.slips[2];
    EXPECT_EQ(motion_at(mounting, third.at_turn).axial_um, third.motion.axial_um);
    EXPECT_EQ(motion_at(mounting, std::nextafter(third.at_turn, 0)).axial_um, mounting.slips[1].motion.axial_um);
    EXPECT_EQ(motion_at(mounting, 1e9).axial_um, mounting.slips.back().motion.axial_um);
    const double jump = third.motion.axial_um - mounting.slips[1].motion.axial_um;
    squares += jump * jump;
    for (std::size_t i = 1; i < mounting.slips.size(); ++i) {
      EXPECT_GE(mounting.slips[i].at_turn, mounting.slips[i - 1].at_turn);
    }
  }
  EXPECT_NEAR(slips / 100, 20'000 / 50, 4 * std::sqrt(400.0 / 100));
  EXPECT_NEAR(squares / 100 / 400, 1, 4 * std::sqrt(2.0 / 100));
}

TEST(Mounting, AScratchThatGoesAllTheWayRoundSaysSo) {
  const SimPart part = plain_part({.wobble = Lean{.runout_um = 20, .high_deg = 300}});
  EXPECT_EQ(scratch_of(part, {}, Side::outboard, 100, 20.1).arc_deg, 360);
  const ScratchMark half = scratch_of(part, {}, Side::outboard, 100, 10);
  EXPECT_NEAR(half.arc_deg, 180, 0.01);
  EXPECT_NEAR(half.centre_deg, 300, 0.01);
  EXPECT_NEAR(scratch_of(part, {}, Side::inboard, 100, 10).centre_deg, 120, 0.01);
}

TEST(Mounting, AMountIsRefusedByTheNameOfItsField) {
  const SimPart part = plain_part();
  const auto with = [&](auto change) {
    return refusal_of([&] {
      MountInput input;
      change(input);
      mount_of(part, input);
    });
  };
  EXPECT_EQ(with([](MountInput&) {}), "accepted");
  EXPECT_EQ(with([](MountInput& in) { in.turn_deg = NAN; }), "not_finite turn_deg");
  EXPECT_EQ(with([](MountInput& in) { in.seat_radius_mm = 0; }), "out_of_range seat_radius_mm");
  EXPECT_EQ(with([](MountInput& in) { in.number = 1ULL << 40; }), "out_of_range number");
  EXPECT_EQ(with([](MountInput& in) {
              in.faults.dirt = {{}, {.bump = {.height_um = -1}}};
            }),
            "out_of_range faults.dirt[1].bump.height_um");
  EXPECT_EQ(with([](MountInput& in) { in.faults.dirt.resize(17); }), "too_many faults.dirt");
  EXPECT_EQ(with([](MountInput& in) { in.faults.arbor.shoulder_runout_um = 1001; }),
            "out_of_range faults.arbor.shoulder_runout_um");
  EXPECT_EQ(with([](MountInput& in) { in.faults.arbor.shoulder_radius_mm = 0; }),
            "out_of_range faults.arbor.shoulder_radius_mm");
  EXPECT_EQ(with([](MountInput& in) { in.faults.bore_offset_mm = 6; }), "out_of_range faults.bore_offset_mm");
  EXPECT_EQ(with([](MountInput& in) { in.faults.seating_sd_um = -1; }), "out_of_range faults.seating_sd_um");
  EXPECT_EQ(with([](MountInput& in) { in.faults.nut = LooseNut{.mean_turns = 0}; }),
            "out_of_range faults.nut.mean_turns");
  EXPECT_EQ(refusal_of([&] { bench_height_um(part, {}, Side::outboard, 126, 0); }), "out_of_range radius_mm");
  EXPECT_EQ(refusal_of([&] { scratch_of(part, {}, Side::outboard, 100, 0); }), "out_of_range infeed_um");
}

}  // namespace
}  // namespace brakewright::bench_sim
