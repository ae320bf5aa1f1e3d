#include "core/thickness/thickness.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "core/cleanup/cleanup.hpp"
#include "core/runout/runout.hpp"
#include "core/uncertainty/random.hpp"
#include "core/verdict/after_cut.hpp"
#include "tests/outside/table.hpp"

namespace brakewright {
namespace {

using outside::Table;

ThicknessInput disc_a() {
  const Table disc("harmonic_disc_a.csv");
  ThicknessInput input;
  for (std::size_t i = 0; i < disc.size(); ++i) {
    input.readings.push_back({.angle_deg = disc.number(i, "angle_deg"),
                              .radius_mm = std::nullopt,
                              .values_mm = {disc.number(i, "thickness_mm")}});
  }
  input.micrometer = {.resolution_mm = 1e-6, .mpe_mm = 0, .repeatability_mm = 1e-6, .zero_error_mm = 0};
  input.draws = 2000;
  return input;
}

// harmonic_disc_a.csv and harmonic_disc_a_expected.csv: generated from the waves that the second file names.
TEST(OutsideThickness, FindsTheWavesOfTheHarmonicDisc) {
  const Thickness found = reduce_thickness(disc_a());
  const Table expected("harmonic_disc_a_expected.csv");
  int compared = 0;
  for (std::size_t i = 0; i < expected.size(); ++i) {
    if (expected.text(i, "signal") == "thickness_peak_to_peak_of_samples") {
      EXPECT_NEAR(found.variation_mm * 1000, expected.number(i, "amplitude_um"), 1e-3);
      ++compared;
    }
    if (expected.text(i, "signal") != "thickness") continue;
    const auto order = static_cast<std::size_t>(expected.number(i, "harmonic"));
    const Harmonic& wave = found.harmonics.at(order - 1);
    EXPECT_NEAR(wave.amplitude_um, expected.number(i, "amplitude_um"), 1e-3);
    const double off_deg = wave.phase_deg - expected.number(i, "phase_rad") * 180 / std::numbers::pi;
    EXPECT_NEAR(std::remainder(off_deg, 360), 0, 0.1);
    ++compared;
  }
  EXPECT_EQ(compared, 4);
}

// harmonic_disc_a_expected.csv: the true curve's peak to valley is that of its three waves.
TEST(OutsideThickness, ThePosteriorClosesOnTheHarmonicDisc) {
  const Posterior found = reduce_thickness(disc_a()).true_variation_mm;
  EXPECT_NEAR(found.median, 0.00998, 0.0001);
  EXPECT_LT(found.high95 - found.low95, 0.0002);
}

// harmonic_disc_a_expected.csv: outboard_tir_of_samples.
TEST(OutsideThickness, TheTraceOfTheHarmonicDiscHasItsRunout) {
  const Table disc("harmonic_disc_a.csv");
  RunoutInput input;
  for (std::size_t i = 0; i < disc.size(); ++i) {
    input.trace.angles_deg.push_back(disc.number(i, "angle_deg"));
    input.trace.values_um.push_back(disc.number(i, "outboard_um"));
  }
  input.draws = 500;
  EXPECT_NEAR(reduce_runout(input).runout_um, 49.887257, 1e-6);
}

// Common practice, no source: first reading 0.836 in, after the cut 0.824 in: 0.012 in off in all, 0.006 a side.
TEST(OutsideThickness, TheCommonPracticeCaseTakesSixThousandthsASide) {
  constexpr double kInch = 25.4;
  AfterCutInput input;
  for (int i = 0; i < 4; ++i) {
    input.before.push_back({.angle_deg = 90.0 * i, .radius_mm = std::nullopt, .values_mm = {0.836 * kInch}});
    input.after.push_back({.angle_deg = 90.0 * i, .radius_mm = std::nullopt, .values_mm = {0.824 * kInch}});
  }
  input.micrometer_before = input.micrometer_after = {
      .resolution_mm = 0.0001 * kInch, .mpe_mm = 0.002, .repeatability_mm = 0.001, .zero_error_mm = 0};
  input.outboard_marks = input.inboard_marks = 6;
  input.dial_um_per_mark = 25.4;
  input.draws = 500;
  const AfterCut after = check_after_cut(input);
  EXPECT_NEAR(after.removed_mean_um / 1000, 0.012 * kInch, 1e-9);
  EXPECT_NEAR(*after.planned_um / 1000, 0.012 * kInch, 1e-9);
  EXPECT_NEAR(*after.difference_um, 0, 1e-6);
  EXPECT_EQ(after.agrees_with_plan, true);

  CleanupInput cut;
  cut.thickness_mm.assign(4, 0.836 * kInch);
  cut.outboard_um.assign(4, 0);
  cut.angles_deg = {0, 90, 180, 270};
  cut.score_outboard_um = cut.score_inboard_um = {0.006 * kInch * 1000};
  cut.dial_um_per_mark = 25.4;
  const Cleanup plan = least_cleanup(cut);
  EXPECT_EQ(plan.outboard_marks, 6);
  EXPECT_EQ(plan.inboard_marks, 6);
  EXPECT_NEAR(plan.final_mm, 0.824 * kInch, 1e-9);
  EXPECT_NEAR(plan.final_whole_marks_mm, 0.824 * kInch, 1e-9);
}

// range_factors_d2_d3.csv: range of a normal sample, by numerical integration.
TEST(OutsideThickness, TheRangeOfAFlatDiscIsNoiseAndThePosteriorKnowsIt) {
  const Table factors("range_factors_d2_d3.csv");
  double d2_of_8 = 0;
  for (std::size_t i = 0; i < factors.size(); ++i) {
    if (factors.text(i, "n") == "8") d2_of_8 = factors.number(i, "d2");
  }
  Random random(11);
  double read_um = 0;
  double believed_um = 0;
  constexpr int kDiscs = 400;
  for (int n = 0; n < kDiscs; ++n) {
    ThicknessInput input;
    input.micrometer = {.resolution_mm = 1e-5, .mpe_mm = 0, .repeatability_mm = 0.002, .zero_error_mm = 0};
    for (int i = 0; i < 8; ++i) {
      input.readings.push_back(
          {.angle_deg = 45.0 * i, .radius_mm = std::nullopt, .values_mm = {22 + 0.002 * random.normal()}});
    }
    input.seed = static_cast<std::uint64_t>(n);
    input.draws = 400;
    const Thickness found = reduce_thickness(input);
    read_um += found.variation_mm * 1000 / kDiscs;
    believed_um += found.true_variation_mm.median * 1000 / kDiscs;
  }
  EXPECT_NEAR(read_um, d2_of_8 * 2, 0.25);
  EXPECT_LT(believed_um, 0.8 * read_um);
}

// Growth of grey iron 11e-6 per K over 50 K on 25 mm is 0.014 mm: the trade's own figure, calculated.
TEST(OutsideThickness, AWarmDiscReadsThickByTheTradesFigure) {
  ThicknessInput input;
  for (int i = 0; i < 4; ++i) {
    input.readings.push_back({.angle_deg = 90.0 * i, .radius_mm = std::nullopt, .values_mm = {25.0}});
  }
  input.micrometer = {.resolution_mm = 0.001, .mpe_mm = 0.002, .repeatability_mm = 0.001, .zero_error_mm = 0};
  input.part_temperature_c = 70;
  input.draws = 500;
  EXPECT_NEAR(reduce_thickness(input).temperature_shift_mm, -0.0138, 0.0001);
}

}  // namespace
}  // namespace brakewright
