#include "core/bench_sim/mount/measure.hpp"

#include <gtest/gtest.h>

#include "tests/core/bench_sim/benches.hpp"
#include "tests/core/bench_sim/refusal.hpp"

namespace brakewright::bench_sim {
namespace {

constexpr SimMicrometer kPerfect{.resolution_mm = 1e-6, .repeatability_mm = 0, .anvil_diameter_mm = 0};
constexpr SimIndicator kTrue{.resolution_um = 0.01, .repeatability_um = 0};

TEST(SimMeasure, APerfectPointMicrometerReadsTheIronEverywhere) {
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    const SimPart part = coarse_part(seed).part;
    const int ring = static_cast<int>(seed) % part.grid.rings, angle = static_cast<int>(seed * 7) % part.grid.angles;
    const Spot spot{part.grid.radius_mm(ring), part.grid.angle_deg(angle)};
    EXPECT_NEAR(read_thickness_mm(part, kPerfect, spot, 20, seed, 1), thickness_mm(part, ring, angle), 1e-6);
  }
}

TEST(SimMeasure, TheSameReadingOfTheSameSeedIsTheSameAndTheNextIsNot) {
  const SimPart part = plain_part();
  SimMicrometer micrometer;
  micrometer.resolution_mm = 1e-6;
  const auto read = [&](std::uint64_t seed, std::uint64_t number) {
    return read_thickness_mm(part, micrometer, {100, 0}, 20, seed, number);
  };
  EXPECT_EQ(read(1, 5), read(1, 5));
  EXPECT_NE(read(1, 5), read(1, 6));
  EXPECT_NE(read(1, 5), read(2, 5));
}

TEST(SimMeasure, ReadingsScatterByTheRepeatabilityAboutTheThicknessPlusItsErrors) {
  const SimPart part = plain_part();
  SimMicrometer micrometer{
      .resolution_mm = 1e-6, .zero_error_mm = 0.020, .error_mm = -0.003, .repeatability_mm = 0.004};
  double sum = 0, squares = 0;
  constexpr int kReadings = 2000;
  for (int i = 0; i < kReadings; ++i) {
    const double off = read_thickness_mm(part, micrometer, {100, 50}, 20, 3, static_cast<std::uint64_t>(i)) - 24.017;
    sum += off;
    squares += off * off;
  }
  EXPECT_NEAR(sum / kReadings, 0, 4 * 0.004 / std::sqrt(kReadings));
  EXPECT_NEAR(squares / kReadings / (0.004 * 0.004), 1, 4 * std::sqrt(2.0 / kReadings));
}

TEST(SimMeasure, FlatAnvilsAreNotFooledByALeanOfTheWholePart) {
  const SimPart part = plain_part({.wobble = Lean{.runout_um = 400, .high_deg = 20}});
  for (double angle : even_angles(16)) {
    EXPECT_NEAR(thickness_between_anvils_mm(part, 6.5, {100, angle}), 24, 2e-5);
  }
}

TEST(SimMeasure, AnIndicatorShowsTheFaceRoundedToItsStep) {
  const SimPart part = plain_part({.wobble = Lean{.runout_um = 50, .high_deg = 0}});
  const RunoutTrace trace =
      read_face(part, {}, Side::outboard, 100, {0, 90, 180, 270, 0}, {.resolution_um = 2, .repeatability_um = 0}, 1, 0);
  EXPECT_EQ(trace.values_um, (std::vector<double>{0, -26, -50, -26, 0}));  // 25 rounds away from nought
  EXPECT_EQ(trace.angles_deg, (std::vector<double>{0, 90, 180, 270, 0}));
}

TEST(SimMeasure, PlayInTheIndicatorHidesItselfFromTheRunout) {
  const SimPart part = plain_part({.wobble = Lean{.runout_um = 100, .high_deg = 90}});
  std::vector<double> angles = even_angles(36);
  const std::vector<double> once = angles;
  angles.insert(angles.end(), once.begin(), once.end());
  SimIndicator loose = kTrue;
  loose.play_um = 30;
  const RunoutTrace trace = read_face(part, {}, Side::outboard, 100, angles, loose, 1, 0);
  const auto second = trace.values_um.begin() + 36;
  const auto [low, high] = std::minmax_element(second, trace.values_um.end());
  // Half the play behind, on the way up and on the way down.
  EXPECT_NEAR(*high, 35, 0.02);
  EXPECT_NEAR(*low, -35, 0.02);
  EXPECT_NEAR(*second, -15, 0.02);
}

TEST(SimMeasure, AStandThatGivesDoesNotComeBackToItsFirstReading) {
  const SimPart part = plain_part({.wobble = Lean{.runout_um = 40, .high_deg = 90}});
  SimIndicator creeping = kTrue;
  creeping.creep_um_per_turn = 12;
  std::vector<double> angles = even_angles(8);
  angles.push_back(0);
  const RunoutTrace trace = read_face(part, {}, Side::inboard, 100, angles, creeping, 1, 0);
  EXPECT_NEAR(trace.values_um.back() - trace.values_um.front(), 12, 0.011);
  EXPECT_NEAR(read_face(part, {}, Side::inboard, 100, angles, kTrue, 1, 0).values_um.back(), 0, 0.011);
}

TEST(SimMeasure, WhatCannotBeReadIsRefusedByItsName) {
  const SimPart part = plain_part();
  const auto read = [&](auto change) {
    return refusal_of([&] {
      SimMicrometer micrometer;
      Spot spot{100, 0};
      double temperature_c = 20;
      std::uint64_t number = 0;
      change(micrometer, spot, temperature_c, number);
      read_thickness_mm(part, micrometer, spot, temperature_c, 1, number);
    });
  };
  EXPECT_EQ(read([](auto&, auto&, auto&, auto&) {}), "accepted");
  EXPECT_EQ(read([](auto& m, auto&, auto&, auto&) { m.resolution_mm = 0; }), "out_of_range micrometer.resolution_mm");
  EXPECT_EQ(read([](auto& m, auto&, auto&, auto&) { m.zero_error_mm = NAN; }), "not_finite micrometer.zero_error_mm");
  EXPECT_EQ(read([](auto& m, auto&, auto&, auto&) { m.misread_chance = 2; }), "out_of_range micrometer.misread_chance");
  EXPECT_EQ(read([](auto& m, auto&, auto&, auto&) { m.anvil_diameter_mm = 31; }),
            "out_of_range micrometer.anvil_diameter_mm");
  EXPECT_EQ(read([](auto&, auto& s, auto&, auto&) { s.radius_mm = 74; }), "out_of_range spot.radius_mm");
  EXPECT_EQ(read([](auto&, auto& s, auto&, auto&) { s.angle_deg = NAN; }), "not_finite spot.angle_deg");
  EXPECT_EQ(read([](auto&, auto&, auto& t, auto&) { t = 401; }), "out_of_range temperature_c");
  EXPECT_EQ(read([](auto&, auto&, auto&, auto& n) { n = 1ULL << 40; }), "out_of_range number");
  const auto face = [&](const std::vector<double>& angles, const SimIndicator& indicator) {
    return refusal_of([&] { read_face(part, {}, Side::outboard, 100, angles, indicator, 1, 0); });
  };
  EXPECT_EQ(face({}, kTrue), "too_few angles_deg");
  EXPECT_EQ(face({0, 360}, kTrue), "out_of_range angles_deg[1]");
  EXPECT_EQ(face({0}, {.resolution_um = 0}), "out_of_range indicator.resolution_um");
  EXPECT_EQ(face({0}, {.play_um = -1}), "out_of_range indicator.play_um");
  EXPECT_EQ(face(std::vector<double>(10'001), kTrue), "too_many angles_deg");
}

}  // namespace
}  // namespace brakewright::bench_sim
