#include <gtest/gtest.h>

#include "core/cleanup/cleanup.hpp"
#include "core/runout/runout.hpp"
#include "core/thickness/thickness.hpp"
#include "tests/core/bench_sim/benches.hpp"

/// What was put into a part is found in readings of it, within the uncertainty that the core itself states.
namespace brakewright::bench_sim {
namespace {

constexpr double kMicrometerSd_mm = 0.001;

/// Of a seed, but for what flat anvils and single radii would add.
SimPart smooth_part(std::uint64_t seed) {
  PartFaults wished;
  wished.grooves = std::vector<Groove>{};
  wished.hard_spots = std::vector<HardSpot>{};
  wished.lip = EdgeLip{};
  return part_of_seed({.seed = seed, .difficulty = 4, .faults = wished, .angles = 360, .ring_step_mm = 2}).part;
}

ThicknessInput readings_of(const SimPart& part, std::uint64_t seed, const std::vector<double>& radii_mm) {
  ThicknessInput input;
  input.micrometer = {.resolution_mm = 0.001, .mpe_mm = 0, .repeatability_mm = kMicrometerSd_mm};
  const SimMicrometer micrometer{.resolution_mm = 0.001, .repeatability_mm = kMicrometerSd_mm, .anvil_diameter_mm = 0};
  std::uint64_t number = 0;
  for (double radius : radii_mm) {
    for (double angle : even_angles(12)) {
      ThicknessPoint point{.angle_deg = angle, .radius_mm = radius, .values_mm = {}};
      for (int repeat = 0; repeat < 2; ++repeat) {
        point.values_mm.push_back(read_thickness_mm(part, micrometer, {radius, angle}, 20, seed, number++));
      }
      input.readings.push_back(point);
    }
  }
  input.seed = seed;
  input.draws = 1000;
  return input;
}

TEST(SimFound, TheTrueVariationLiesInItsInterval) {
  int held = 0;
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    const SimPart part = smooth_part(seed);
    const double radius = part.grid.radius_mm(12);
    const Posterior found = reduce_thickness(readings_of(part, seed, {radius})).true_variation_mm;
    const double truth = ring_thickness(part, radius).variation_um / 1000;
    held += found.low95 <= truth && truth <= found.high95;
  }
  RecordProperty("held", held);
  EXPECT_GE(held, kSeeds * 93 / 100);
}

TEST(SimFound, TheTrueRunoutLiesInItsInterval) {
  int held = 0;
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    const SimPart part = smooth_part(seed);
    const double radius = part.grid.radius_mm(12);
    RunoutInput input;
    input.trace = read_face(part, {}, Side::outboard, radius, even_angles(12),
                            {.resolution_um = 1, .repeatability_um = 1}, seed, 0);
    input.indicator = {.resolution_um = 1, .repeatability_um = 1};
    input.seed = seed;
    input.draws = 1000;
    const Posterior found = reduce_runout(input).true_runout_um;
    const double truth = face_runout_um(part, Side::outboard, radius);
    held += found.low95 <= truth && truth <= found.high95;
  }
  RecordProperty("held", held);
  EXPECT_GE(held, kSeeds * 93 / 100);
}

TEST(SimFound, TaperThicknessAndTheOrdersOfTheVariationComeBack) {
  for (std::uint64_t seed = 1; seed <= kSeeds; seed += 5) {
    PartFaults faults;
    faults.thickness_mm = 23.5;
    faults.taper_um = seed % 2 == 0 ? 60 : -35;
    faults.wobble = Lean{.runout_um = 90, .high_deg = 45};
    faults.variation = ThicknessWaves{
        .waves = {{.order = 1, .amplitude_um = 12, .phase_deg = 80}, {.order = 3, .amplitude_um = 7, .phase_deg = 200}},
        .outboard_share = 0.3};
    const SimPart part = plain_part(faults);
    const Thickness found = reduce_thickness(readings_of(part, seed, {80, 120}));
    // A circle's mean rests on 24 readings, a wave's amplitude on as many: sd sqrt(2/24) of a reading's.
    const double rounding = 0.001 / std::sqrt(12.0), sd = std::hypot(kMicrometerSd_mm, rounding);
    EXPECT_NEAR(found.taper_mm, *faults.taper_um / 1000 * 40 / 46, 4.5 * sd * std::sqrt(2.0 / 24));
    EXPECT_NEAR(found.mean_mm, 23.5, 4.5 * sd / std::sqrt(48.0));
    const auto& waves = found.circles[0].harmonics;
    ASSERT_GE(waves.size(), 3u);
    EXPECT_NEAR(waves[0].amplitude_um, 12, 4500 * sd * std::sqrt(2.0 / 24));
    EXPECT_NEAR(waves[2].amplitude_um, 7, 4500 * sd * std::sqrt(2.0 / 24));
    EXPECT_LT(apart_deg(waves[0].phase_deg, 80), 10);
    EXPECT_LT(apart_deg(waves[2].phase_deg, 200), 15);
  }
}

TEST(SimFound, TheLeastCutFromReadingsOnTheBenchIsWhatTheFacesNeed) {
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    const SimPart part = smooth_part(seed);
    MountInput mount{.seat_radius_mm = 50, .seed = seed};
    mount.faults.dirt = {{.bump = {.height_um = 30, .radius_mm = 40, .angle_deg = static_cast<double>(seed)}}};
    mount.faults.seating_sd_um = 15;
    const Motion motion = mount_of(part, mount).motion;
    const int ring = 15;
    const double radius = part.grid.radius_mm(ring);
    CleanupInput input;
    double lowest_outboard = 1e300, lowest_inboard = 1e300;
    for (int a = 0; a < part.grid.angles; a += 5) {
      const double angle = part.grid.angle_deg(a);
      input.angles_deg.push_back(angle);
      input.outboard_um.push_back(bench_height_um(part, motion, Side::outboard, radius, angle));
      input.thickness_mm.push_back(thickness_mm(part, ring, a));
      lowest_outboard = std::min(lowest_outboard, input.outboard_um.back());
      lowest_inboard = std::min(lowest_inboard, bench_height_um(part, motion, Side::inboard, radius, angle));
    }
    const Cleanup found = least_cleanup(input);
    EXPECT_NEAR(found.final_mm, part.nominal_thickness_mm + (lowest_outboard + lowest_inboard) / 1000, 1e-9);
    EXPECT_LE(found.final_mm, found.start_min_mm + 1e-12);
  }
}

}  // namespace
}  // namespace brakewright::bench_sim
