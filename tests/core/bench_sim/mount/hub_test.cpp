#include <gtest/gtest.h>

#include "core/uncertainty/random.hpp"
#include "tests/core/bench_sim/benches.hpp"

namespace brakewright::bench_sim {
namespace {

SimPart hubbed_part(std::uint64_t seed) {
  const PartMake make = with_hub(make_of_seed(seed), seed);
  return part_of_seed({.seed = seed, .difficulty = 5, .make = make, .angles = 180, .ring_step_mm = 2}).part;
}

TEST(SimHub, AHubLeavesTheRestOfAMakeAsItWas) {
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    const PartMake plain = make_of_seed(seed), hubbed = with_hub(plain, seed);
    EXPECT_EQ(hubbed.outer_radius_mm, plain.outer_radius_mm);
    EXPECT_EQ(hubbed.limits.machine_to_mm, plain.limits.machine_to_mm);
    EXPECT_EQ(hubbed.shape.vent_mm, plain.shape.vent_mm);
    const mount::PartSeat& seat = hubbed.shape.seat;
    EXPECT_EQ(seat.kind, mount::PartKind::hubbed);
    EXPECT_GT(seat.inner_race_mm, seat.outer_race_mm);
    EXPECT_LT(seat.inner_race_mm, 2 * hubbed.shape.hat_radius_mm);
    EXPECT_EQ(seat_reach_mm(hubbed.shape), seat.hub_length_mm);
    EXPECT_EQ(seat_reach_mm(plain.shape), plain.shape.seat.flat_outer_mm / 2);
  }
}

TEST(SimHub, ATiltOfTheTapersComesOutOfAPlaneCutAsRunoutAndNoVariation) {
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    SimPart part = hubbed_part(seed);
    Random random(seed);
    const double reach = seat_reach_mm(part.shape);
    MountInput input{.turn_deg = 360 * random.uniform(), .seed = seed};
    input.faults.dirt = {{.bump = {.height_um = 90 * random.uniform(),
                                   .radius_mm = reach * random.uniform(),
                                   .angle_deg = 360 * random.uniform()},
                          .on_the_part = random.uniform() < 0.5}};
    input.faults.arbor = {.shoulder_runout_um = 50 * random.uniform(), .shoulder_radius_mm = reach};
    input.faults.bore_offset_mm = 0.3 * random.uniform();
    input.faults.seating_sd_um = 15;
    const Motion motion = mount_of(part, input).motion;
    cut_planes(part, motion);
    const double radius = part.grid.radius_mm(part.grid.rings / 2);
    const double runout = runout_um_of(tilt_after_cut(motion), radius);
    EXPECT_NEAR(face_runout_um(part, Side::outboard, radius), runout, 2e-4 * runout + 0.002) << "seed " << seed;
    EXPECT_NEAR(face_runout_um(part, Side::inboard, radius), runout, 2e-4 * runout + 0.002) << "seed " << seed;
    EXPECT_LT(ring_thickness(part, radius).variation_um, 0.0021) << "seed " << seed;
  }
}

TEST(SimHub, ATaperOutOfTrueLeansThePartByItsOffsetOverTheWayBetweenTheRaces) {
  const SimPart part = hubbed_part(3);
  const double apart = part.shape.seat.hub_length_mm;
  MountInput input;
  // an indicator on the taper shows twice the offset of its axis
  input.faults.arbor = {.shoulder_runout_um = 40, .shoulder_radius_mm = seat_reach_mm(part.shape)};
  const Tilt own = part.seat_tilt;
  EXPECT_NEAR(runout_um_of(mount_of(part, input).motion.tilt + -own, 100), 2 * 100 * 20 / apart, 1e-9);
}

}  // namespace
}  // namespace brakewright::bench_sim
