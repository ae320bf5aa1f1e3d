#include <gtest/gtest.h>

#include <array>

#include "core/circle/circle.hpp"
#include "core/separation/separation.hpp"
#include "core/uncertainty/random.hpp"
#include "tests/core/bench_sim/benches.hpp"

/// The mistakes of the bench each leave the sign in the readings that the trade knows them by.
namespace brakewright::bench_sim {
namespace {

constexpr SimIndicator kIndicator{.resolution_um = 1, .repeatability_um = 0.5};
constexpr SimMicrometer kMicrometer{.resolution_mm = 0.001, .repeatability_mm = 0.0005};
constexpr SimMicrometer kExactPoint{.resolution_mm = 1e-6, .repeatability_mm = 0, .anvil_diameter_mm = 0};

double range_of(const std::vector<double>& values) {
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  return *high - *low;
}

double runout_read(const SimPart& part, const Motion& motion, std::uint64_t seed, std::uint64_t number = 0) {
  return range_of(read_face(part, motion, Side::outboard, 110, even_angles(24), kIndicator, seed, number).values_um);
}

std::vector<double> thickness_read(const SimPart& part, const SimMicrometer& micrometer, double radius_mm, int points,
                                   std::uint64_t seed) {
  std::vector<double> read;
  for (double angle : even_angles(points)) {
    read.push_back(read_thickness_mm(part, micrometer, {radius_mm, angle}, 20, seed, read.size()));
  }
  return read;
}

MountInput with_dirt(Bump bump) {
  MountInput input;
  input.faults.dirt = {{.bump = bump}};
  return input;
}

TEST(Signatures, AChipUnderThePartLeavesAGoodThicknessMapAndARunoutThatFollowsTheRotor) {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    Random random(seed);
    SimPart part = plain_part({.wobble = Lean{.runout_um = 80, .high_deg = 300},
                               .variation = ThicknessWaves{.waves = {{.order = 2, .amplitude_um = 12}}}});
    const MountInput input =
        with_dirt({.height_um = 40 + 60 * random.uniform(), .radius_mm = 60, .angle_deg = 360 * random.uniform()});
    const Motion motion = mount_of(part, input).motion;
    cut_planes(part, motion);
    EXPECT_LT(runout_read(part, motion, seed), 5);  // the cut looked perfect on the bench
    EXPECT_LT(range_of(thickness_read(part, kMicrometer, 110, 12, seed)), 0.005);
    // On the car: three studs on a true hub, angles of the hub.
    SeparationInput on_car;
    on_car.max_order = 1;
    for (double turn : {0.0, 72.0, 144.0}) {
      const auto read =
          read_face(part, {}, Side::outboard, 110, even_angles(24), kIndicator, seed, static_cast<std::uint64_t>(turn));
      PositionTrace position{.turn_deg = turn, .trace = {.angles_deg = read.angles_deg, .values_um = read.values_um}};
      for (double& angle : position.trace.angles_deg) angle += turn;
      on_car.positions.push_back(position);
    }
    const Separation found = separate(on_car);
    const double tilted = 2 * 110 * input.faults.dirt[0].bump.height_um / (60 + 65);
    EXPECT_NEAR(found.part_runout_um, tilted, 2) << "seed " << seed;
    EXPECT_LT(found.carrier_runout_um, 2) << "seed " << seed;
    EXPECT_LT(apart_deg(found.part[0].phase_deg, input.faults.dirt[0].bump.angle_deg + 180), 3);
  }
}

/// Middles of two marks on the part, half a turn of it on the arbor between them.
std::array<double, 2> scratches(const Lean& wobble, const BentArbor& arbor) {
  const SimPart part = plain_part({.wobble = wobble});
  MountInput input;
  input.faults.arbor = arbor;
  std::array<double, 2> middles{};
  for (double& middle : middles) {
    middle = scratch_of(part, mount_of(part, input).motion, Side::outboard, 100, 4).centre_deg;
    input.turn_deg += 180;
  }
  return middles;
}

TEST(Signatures, ScratchesOfABentArborLieAcrossTheRotorThoseOfARotorOnEachOtherAndThoseOfBothBetween) {
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    Random random(seed);
    const double at = 359 * random.uniform(), size = 40 + 100 * random.uniform();
    const BentArbor bent{.shoulder_runout_um = 0.3 * size, .shoulder_radius_mm = 30, .high_deg = at};
    const auto mount = scratches({}, bent);
    EXPECT_GT(apart_deg(mount[0], mount[1]), 179);
    const auto rotor = scratches({.runout_um = size, .high_deg = at}, {});
    EXPECT_LT(apart_deg(rotor[0], rotor[1]), 1);
    const auto both = scratches({.runout_um = size, .high_deg = std::fmod(at + 90, 360)}, bent);
    EXPECT_NEAR(apart_deg(both[0], both[1]), 90, 1);
  }
}

TEST(Signatures, ALooseNutMakesTheMeanOfTheFaceJump) {
  const SimPart part = plain_part();
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    MountInput input{.seed = seed};
    input.faults.nut = LooseNut{.axial_sd_um = 60, .tilt_sd_um = 5, .mean_turns = 40};
    const Mounting mounting = mount_of(part, input);
    const auto mean_at = [&](double turns) {
      double sum = 0;
      for (double angle : even_angles(12)) {
        sum += bench_height_um(part, motion_at(mounting, turns), Side::outboard, 110, angle);
      }
      return sum / 12;
    };
    double largest = 0;
    for (int turn = 1; turn < 400; ++turn) largest = std::max(largest, std::abs(mean_at(turn) - mean_at(turn - 1)));
    EXPECT_GT(largest, 20) << "seed " << seed;
    EXPECT_EQ(mean_at(0), 0);
  }
}

TEST(Signatures, AWrongConeMakesTheRimOrbitWithTheFaceTrue) {
  const SimPart part = plain_part();
  MountInput input;
  input.faults.bore_offset_mm = 0.25;
  const Motion motion = mount_of(part, input).motion;
  std::vector<double> rim;
  for (double angle : even_angles(24)) rim.push_back(rim_height_um(part, motion, angle));
  EXPECT_NEAR(range_of(rim), 500, 1e-6);
  EXPECT_LT(runout_read(part, motion, 1), 4);
}

TEST(Signatures, PittedRacesMakeThreeRemountsDisagreeByMoreThanTheGauge) {
  const SimPart part = plain_part({.wobble = Lean{.runout_um = 60, .high_deg = 10}});
  int pitted = 0, sound = 0;
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    const auto disagree = [&](double seating_sd_um) {
      std::vector<double> runouts;
      for (std::uint64_t number = 0; number < 3; ++number) {
        MountInput input{.seed = seed, .number = number};
        input.faults.seating_sd_um = seating_sd_um;
        runouts.push_back(runout_read(part, mount_of(part, input).motion, seed, number));
      }
      return range_of(runouts) > 3;
    };
    pitted += disagree(30);
    sound += disagree(0);
  }
  EXPECT_GT(pitted, 475);
  EXPECT_LT(sound, 25);
}

TEST(Signatures, AWarmPartReadsThickAsTheTradeWorkedOut) {
  const SimPart part = plain_part({.thickness_mm = 25});
  // 50 K on 25 mm at 11e-6 per K: 0.014 mm.
  EXPECT_NEAR(read_thickness_mm(part, kExactPoint, {100, 0}, 70, 1, 0) - 25, 0.01375, 2e-6);
  std::vector<double> cooling;
  for (double temperature_c : {70.0, 60.0, 50.0, 40.0, 30.0, 20.0}) {
    cooling.push_back(read_thickness_mm(part, kMicrometer, {100, 0}, temperature_c, 1, cooling.size()));
  }
  EXPECT_GT(cooling.front() - cooling.back(), 0.010);
  EXPECT_LT(cooling.front() - cooling.back(), 0.020);
}

TEST(Signatures, HardSpotsStandProudAtTheSameAnglesOnBothFaces) {
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    Random random(seed);
    const HardSpot spot{.angle_deg = static_cast<double>(random.below(360)),
                        .radius_mm = static_cast<double>(90 + random.below(20)),
                        .diameter_mm = 12,
                        .height_um = 10 + 40 * random.uniform(),
                        .hardness = 2};
    const SimPart part = plain_part({.hard_spots = std::vector<HardSpot>{spot}});
    const auto on = [&](double angle_deg) {
      return read_thickness_mm(part, kExactPoint, {spot.radius_mm, angle_deg}, 20, seed, 0) - 24;
    };
    EXPECT_NEAR(on(spot.angle_deg), spot.height_um / 1000, 2e-6);
    for (double away : {30.0, 90.0, 180.0}) EXPECT_NEAR(on(spot.angle_deg + away), 0, 1e-6);
    for (Side side : {Side::outboard, Side::inboard}) {
      EXPECT_NEAR(height_um_at(part.grid, part.face(side), spot.radius_mm, spot.angle_deg), spot.height_um / 2, 0.001);
    }
    const int ring = ring_near(part.grid, spot.radius_mm), angle = static_cast<int>(spot.angle_deg);
    EXPECT_EQ(part.hardness[part.grid.at(ring, angle)], 2);
    EXPECT_EQ(part.hardness[part.grid.at(ring, (angle + 180) % 360)], 1);
  }
}

TEST(Signatures, AnUnsweptLipMakesTheOuterRingThickAndLiftsAnvilsThatReachIt) {
  const SimPart part = plain_part({.lip = EdgeLip{.outboard_um = 300, .inboard_um = 200}});
  EXPECT_NEAR(ring_thickness(part, 124).mean_mm, 24.5, 1e-9);
  EXPECT_NEAR(ring_thickness(part, 123).mean_mm, 24.0, 1e-9);
  EXPECT_NEAR(thickness_between_anvils_mm(part, 6.5, {122, 10}), 24.5, 2e-5);
  EXPECT_NEAR(thickness_between_anvils_mm(part, 6.5, {115, 10}), 24.0, 2e-5);
  EXPECT_NEAR(thickness_between_anvils_mm(part, 0, {122, 10}), 24.0, 2e-5);
}

TEST(Signatures, FlatAnvilsBridgeTheGroovesAndReadTooLargeByAConstant) {
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    Random random(seed);
    const double radius = 85 + 30 * random.uniform();
    const Groove groove{.side = seed % 2 == 0 ? Side::outboard : Side::inboard,
                        .radius_mm = radius,
                        .width_mm = 3,
                        .depth_um = 100 + 400 * random.uniform()};
    const SimPart part =
        part_of_faults(plain_make(), {.thickness_mm = 24, .grooves = std::vector<Groove>{groove}}, 180, 0.1);
    for (double angle : even_angles(4)) {
      const Spot spot{radius, angle};
      const double flat = thickness_between_anvils_mm(part, 6.5, spot);
      EXPECT_NEAR(flat, 24, 1e-6) << "seed " << seed;
      EXPECT_NEAR(flat - thickness_between_anvils_mm(part, 0, spot), groove.depth_um / 1000, 0.002) << "seed " << seed;
    }
  }
}

TEST(Signatures, AZeroErrorShiftsEveryReadingAndComesOffAgain) {
  const SimPart part = plain_part({.wobble = Lean{.runout_um = 50}});
  SimMicrometer micrometer = kMicrometer;
  micrometer.zero_error_mm = 0.03;
  ThicknessInput input;
  input.micrometer = {.resolution_mm = 0.001, .repeatability_mm = 0.0005, .zero_error_mm = 0.03};
  for (double angle : even_angles(8)) {
    const double read = read_thickness_mm(part, micrometer, {100, angle}, 20, 9, input.readings.size());
    EXPECT_NEAR(read, 24.03, 0.003);
    input.readings.push_back({.angle_deg = angle, .radius_mm = {}, .values_mm = {read}});
  }
  input.draws = 1000;
  EXPECT_NEAR(reduce_thickness(input).mean_mm, 24, 0.001);
}

TEST(Signatures, AnUnsteadyHandScattersMoreThanTheOthers) {
  const SimPart part = plain_part();
  const auto spread = [&](double repeatability_mm, std::uint64_t seed) {
    SimMicrometer hand = kMicrometer;
    hand.repeatability_mm = repeatability_mm;
    double sum = 0, squares = 0;
    for (std::uint64_t i = 0; i < 10; ++i) {
      const double off = read_thickness_mm(part, hand, {100, 0}, 20, seed, i) - 24;
      sum += off;
      squares += off * off;
    }
    return std::sqrt((squares - sum * sum / 10) / 9);
  };
  int more = 0;
  for (std::uint64_t seed = 1; seed <= 500; ++seed) more += spread(0.006, seed) > 2 * spread(0.0015, 1000 + seed);
  EXPECT_GT(more, 475);
}

TEST(Signatures, AMisreadThimbleIsOffByOneWholeTurn) {
  const SimPart part = plain_part();
  SimMicrometer hasty = kMicrometer;
  hasty.misread_chance = 0.1;
  int off = 0;
  for (double turn_mm : {0.5, 0.635}) {
    hasty.thimble_turn_mm = turn_mm;
    for (std::uint64_t seed = 1; seed <= 500; ++seed) {
      const double error = std::abs(read_thickness_mm(part, hasty, {100, 0}, 20, seed, 0) - 24);
      off += error > 0.1;
      EXPECT_NEAR(error > 0.1 ? error : turn_mm, turn_mm, 0.003);
    }
  }
  EXPECT_NEAR(off, 100, 40);
}

TEST(Signatures, AGaugeAsCoarseAsTheLimitReadsNoVariationAndIsNotBelieved) {
  const SimPart part = plain_part({.variation = ThicknessWaves{.waves = {{.order = 1, .amplitude_um = 4.5}}}});
  SimMicrometer coarse = kMicrometer;
  coarse.resolution_mm = 0.01;
  coarse.repeatability_mm = 0;
  EXPECT_LT(range_of(thickness_read(part, coarse, 100, 12, 1)), 1e-9);
  EXPECT_NEAR(range_of(thickness_read(part, kMicrometer, 100, 12, 1)), 0.009, 0.003);
  ThicknessInput input;
  input.micrometer = {.resolution_mm = 0.01, .repeatability_mm = 0.001};
  for (double angle : even_angles(12)) {
    input.readings.push_back({.angle_deg = angle, .radius_mm = {}, .values_mm = {24.0}});
  }
  input.variation_limit_mm = 0.01;
  input.draws = 1000;
  EXPECT_EQ(reduce_thickness(input).variation_verdict, Standing::cannot_tell);
}

TEST(Signatures, TooFewPointsMissAPatternByWhatTheTradesTableSays) {
  struct Row {
    int order, points;
    double seen;
  };
  // Worst fraction of the true peak to valley that N equal points show of k waves a turn.
  for (const Row& row : {Row{1, 4, 0.71}, Row{2, 4, 0}, Row{2, 6, 0.75}, Row{2, 8, 0.71}, Row{2, 12, 0.87},
                         Row{3, 6, 0}, Row{3, 8, 0.92}, Row{4, 8, 0}, Row{4, 12, 0.75}, Row{4, 16, 0.71}}) {
    double worst = 1;
    for (double phase = 0; phase < 360; phase += 2.5) {
      const SimPart part = plain_part(
          {.variation = ThicknessWaves{.waves = {{.order = row.order, .amplitude_um = 10, .phase_deg = phase}}}});
      worst = std::min(worst, range_of(thickness_read(part, kExactPoint, 100, row.points, 1)) / 0.020);
    }
    EXPECT_NEAR(worst, row.seen, 0.006) << "order " << row.order << ", " << row.points << " points";
    EXPECT_NEAR(worst, seen_fraction(even_angles(row.points), row.order), 0.003);
  }
}

TEST(Signatures, MixedRadiiTurnTaperIntoVariation) {
  const SimPart part = plain_part({.taper_um = 46});
  std::vector<double> mixed;
  for (double angle : even_angles(8)) {
    const double radius = mixed.size() % 2 == 0 ? 110 : 90;
    mixed.push_back(read_thickness_mm(part, kExactPoint, {radius, angle}, 20, 1, mixed.size()));
  }
  EXPECT_NEAR(range_of(mixed), 0.020, 1e-5);
  EXPECT_LT(range_of(thickness_read(part, kExactPoint, 110, 8, 1)), 1e-5);
}

}  // namespace
}  // namespace brakewright::bench_sim
