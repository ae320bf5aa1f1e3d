#include "core/circle/circle.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <string>

#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright {
namespace {

constexpr double kRadPerDeg = std::numbers::pi / 180.0;

std::vector<double> even_angles(int count, double first_deg = 0.0) {
  std::vector<double> angles;
  for (int j = 0; j < count; ++j) angles.push_back(first_deg + 360.0 * j / count);
  return angles;
}

double curve(double mean_um, const std::vector<Harmonic>& waves, double angle_deg) {
  for (const Harmonic& wave : waves) {
    mean_um += wave.amplitude_um * std::cos((wave.order * angle_deg - wave.phase_deg) * kRadPerDeg);
  }
  return mean_um;
}

Trace trace_of(const std::vector<double>& angles_deg, double mean_um, const std::vector<Harmonic>& waves) {
  Trace trace{.angles_deg = angles_deg};
  for (const double angle : angles_deg) trace.values_um.push_back(curve(mean_um, waves, angle));
  return trace;
}

double turn_between(double a_deg, double b_deg) { return std::abs(std::remainder(a_deg - b_deg, 360.0)); }

const std::vector<Harmonic> kWaves{{1, 22.0, 114.6}, {2, 6.0, 302.7}, {3, 1.5, 17.2}};

void expect_waves(const CircleFit& fit, const std::vector<Harmonic>& waves, double tolerance) {
  ASSERT_GE(fit.harmonics.size(), waves.size());
  for (std::size_t i = 0; i < waves.size(); ++i) {
    EXPECT_EQ(fit.harmonics[i].order, waves[i].order);
    EXPECT_NEAR(fit.harmonics[i].amplitude_um, waves[i].amplitude_um, tolerance);
    EXPECT_LT(turn_between(fit.harmonics[i].phase_deg, waves[i].phase_deg), tolerance / waves[i].amplitude_um * 100);
  }
}

TEST(Circle, EvenReadingsGiveBackTheWavesTheyWereMadeOf) {
  for (const int count : {7, 8, 12, 36, 97, 1000, 50000, 150000}) {
    const CircleFit fit = fit_circle(trace_of(even_angles(count, 10.0), 22354.0, kWaves), 3);
    EXPECT_NEAR(fit.mean_um, 22354.0, 1e-9);
    EXPECT_EQ(fit.order_used, 3);
    expect_waves(fit, kWaves, 1e-10);
  }
}

TEST(Circle, UnevenUnsortedRepeatedReadingsGiveThemToo) {
  const std::vector<double> angles{300, 12, 95.5, 12, 47, 181, 219, 359.9, -40, 140, 700, 95.5};
  const CircleFit fit = fit_circle(trace_of(angles, 22354.0, kWaves), 3);
  EXPECT_EQ(fit.distinct_angles, 10);
  EXPECT_NEAR(fit.mean_um, 22354.0, 1e-8);
  expect_waves(fit, kWaves, 1e-9);
  EXPECT_EQ(fit.dof, 5);
  EXPECT_LT(fit.residual_sd_um.value(), 1e-9);
}

TEST(Circle, ManyUnevenReadingsGiveThemTooByTheSumsOfWaves) {
  Random random(7);
  std::vector<double> angles;
  for (int i = 0; i < 40000; ++i) angles.push_back(360.0 * random.uniform());
  const CircleFit fit = fit_circle(trace_of(angles, 22354.0, kWaves), 20);
  EXPECT_EQ(fit.order_used, 20);
  expect_waves(fit, kWaves, 1e-10);
  EXPECT_LT(fit.residual_sd_um.value(), 1e-8);  // readings within 1e-6 degree are taken together
}

TEST(Circle, EvenAndUnevenWaysAgreeOnTheSameNoisyReadings) {
  Random random(11);
  Trace even = trace_of(even_angles(24, 3.0), 100.0, kWaves);
  for (double& value : even.values_um) value += random.normal();
  Trace nudged = even;
  nudged.angles_deg[5] += 1e-8;  // enough to leave the even way, too little to matter
  const CircleFit first = fit_circle(even, 5);
  const CircleFit second = fit_circle(nudged, 5);
  EXPECT_NEAR(first.residual_sd_um.value(), second.residual_sd_um.value(), 1e-8);
  for (std::size_t i = 0; i < 5; ++i) {
    EXPECT_NEAR(first.harmonics[i].amplitude_um, second.harmonics[i].amplitude_um, 1e-7);
    EXPECT_NEAR(first.harmonics[i].u_amplitude_um.value(), second.harmonics[i].u_amplitude_um.value(), 1e-8);
  }
}

TEST(Circle, OrderIsCutToWhatTheAnglesCarryAndTheCutIsTold) {
  const auto order_used = [](const std::vector<double>& angles) {
    const CircleFit fit = fit_circle(trace_of(angles, 0.0, kWaves), 9);
    EXPECT_EQ(fit.order_asked, 9);
    return fit.order_used;
  };
  EXPECT_EQ(order_used(even_angles(1)), 0);
  EXPECT_EQ(order_used(even_angles(2)), 0);
  EXPECT_EQ(order_used(even_angles(3)), 1);
  EXPECT_EQ(order_used(even_angles(4)), 1);
  EXPECT_EQ(order_used(even_angles(8)), 3);
  EXPECT_EQ(order_used({0, 0, 10, 10, 360, 200, 0}), 1);
  EXPECT_EQ(fit_circle(trace_of(even_angles(8), 0.0, kWaves), 2'000'000'000).order_used, 3);
}

TEST(Circle, AnglesBunchedPastTellingApartCutTheOrderFurther) {
  EXPECT_LT(fit_circle(trace_of({10, 10.00001, 10.00002, 10.00003, 10.00004}, 0.0, kWaves), 2).order_used, 2);
  std::vector<double> narrow;
  Random random(5);
  for (int i = 0; i < 20000; ++i) narrow.push_back(40.0 + 0.5 * random.uniform());
  const CircleFit fit = fit_circle(trace_of(narrow, 0.0, kWaves), 40);
  EXPECT_LT(fit.order_used, 40);
  for (const Harmonic& wave : fit.harmonics) EXPECT_TRUE(std::isfinite(wave.amplitude_um));
}

TEST(Circle, OneReadingIsItsOwnMeanAndSeesNothing) {
  const CircleFit fit = fit_circle({.angles_deg = {45}, .values_um = {7}}, 3);
  EXPECT_EQ(fit.mean_um, 7.0);
  EXPECT_EQ(fit.range_um, 0.0);
  EXPECT_EQ(fit.dof, 0);
  EXPECT_FALSE(fit.residual_sd_um);
  EXPECT_EQ(fit.blind_orders.size(), 12U);
}

TEST(Circle, RangeIsThatOfTheMeansPerAngle) {
  const CircleFit fit = fit_circle({.angles_deg = {0, 90, 180, 270, 0, 360}, .values_um = {10, 1, 2, 3, 4, 1}}, 1);
  EXPECT_EQ(fit.range_um, 4.0);  // 5 at 0 degrees is the mean of 10, 4 and 1
}

TEST(Circle, ResidualsCountTheScatterAtOneAngleToo) {
  const CircleFit fit = fit_circle({.angles_deg = {0, 0, 120, 120, 240, 240}, .values_um = {1, -1, 2, 0, 4, 2}}, 1);
  EXPECT_EQ(fit.dof, 3);
  EXPECT_NEAR(fit.residual_sd_um.value(), std::sqrt(6.0 / 3.0), 1e-12);
  EXPECT_NEAR(fit.harmonics[0].u_amplitude_um.value(), std::sqrt(2.0) * std::sqrt(2.0 / 6.0), 1e-12);
}

TEST(Circle, KnownNoiseTakesThePlaceOfTheResiduals) {
  const CircleFit fit = fit_circle(trace_of(even_angles(3), 5.0, {{1, 2.0, 30.0}}), 1, 0.6);
  EXPECT_EQ(fit.dof, 0);
  EXPECT_NEAR(fit.harmonics[0].u_amplitude_um.value(), 0.6 * std::sqrt(2.0 / 3.0), 1e-12);
}

TEST(Circle, AmplitudesUncertaintyIsTheirScatterOverManyTrials) {
  Random random(3);
  const std::vector<double> angles{0, 20, 45, 100, 170, 200, 290, 310};
  double squares = 0.0;
  double told = 0.0;
  const int trials = 4000;
  for (int i = 0; i < trials; ++i) {
    Trace trace = trace_of(angles, 0.0, {{1, 20.0, 70.0}});
    for (double& value : trace.values_um) value += random.normal();
    const CircleFit fit = fit_circle(trace, 2, 1.0);
    squares += std::pow(fit.harmonics[0].amplitude_um - 20.0, 2);
    told += fit.harmonics[0].u_amplitude_um.value();
  }
  EXPECT_NEAR(std::sqrt(squares / trials) / (told / trials), 1.0, 0.04);
}

TEST(Circle, CovarianceIsTheInverseOfTheNormalMatrix) {
  const std::vector<double> angles{0, 20, 45, 100, 170, 200, 200, 290, 310};
  const CircleCoefficients fit = circle_coefficients(trace_of(angles, 5.0, kWaves), 2);
  ASSERT_EQ(fit.values_um.size(), 5U);
  const auto column = [](std::size_t i, double angle_deg) {
    const double angle = static_cast<double>((i + 1) / 2) * angle_deg * kRadPerDeg;
    return i % 2 == 1 ? std::cos(angle) : i == 0 ? 1.0 : std::sin(angle);
  };
  for (std::size_t i = 0; i < 5; ++i) {
    for (std::size_t j = 0; j < 5; ++j) {
      double product = 0.0;
      for (std::size_t l = 0; l < 5; ++l) {
        double normal = 0.0;
        for (const double angle : angles) normal += column(i, angle) * column(l, angle);
        product += normal * fit.unit_covariance[l * 5 + j];
      }
      EXPECT_NEAR(product, i == j ? 1.0 : 0.0, 1e-12);
    }
  }
}

TEST(Circle, BadTracesAreRefusedWithTheirPath) {
  const auto refusal = [](const Trace& trace, int order = 1) {
    try {
      fit_circle(trace, order);
    } catch (const InputError& error) {
      return error.code() + " " + error.field();
    }
    return std::string("accepted");
  };
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(refusal({}), "missing angles_deg");
  EXPECT_EQ(refusal({.angles_deg = {0, 90}, .values_um = {1}}), "sizes_differ values_um");
  EXPECT_EQ(refusal({.angles_deg = {0, nan}, .values_um = {1, 2}}), "not_finite angles_deg[1]");
  EXPECT_EQ(refusal({.angles_deg = {0, 90}, .values_um = {nan, 2}}), "not_finite values_um[0]");
  EXPECT_EQ(refusal({.angles_deg = {0, 1e9}, .values_um = {1, 2}}), "out_of_range angles_deg[1]");
  EXPECT_EQ(refusal({.angles_deg = {0, 90}, .values_um = {1, 1e300}}), "out_of_range values_um[1]");
  EXPECT_EQ(refusal({.angles_deg = {0, 90}, .values_um = {1, 2}}, -1), "out_of_range max_order");
}

double brute_peak_to_valley(const std::vector<Harmonic>& waves, int steps = 200000) {
  double low = 1e300;
  double high = -1e300;
  for (int i = 0; i < steps; ++i) {
    const double value = curve(0.0, waves, 360.0 * i / steps);
    low = std::min(low, value);
    high = std::max(high, value);
  }
  return high - low;
}

TEST(PeakToValley, OfOneWaveIsTwiceItsAmplitude) {
  EXPECT_EQ(peak_to_valley_um(std::vector<Harmonic>{{3, 4.5, 77.0}}), 9.0);
  EXPECT_EQ(peak_to_valley_um({}), 0.0);
  EXPECT_EQ(peak_to_valley_um(std::vector<Harmonic>{{1, 0.0, 0.0}, {2, 0.0, 0.0}}), 0.0);
}

TEST(PeakToValley, HoldsWhereThePeakIsFlat) {
  // cos t - cos(2 t)/4 has a fourth-order top at 0: 3/4 there, -5/4 opposite.
  EXPECT_NEAR(peak_to_valley_um(std::vector<Harmonic>{{1, 1.0, 0.0}, {2, 0.25, 180.0}}), 2.0, 1e-12);
}

TEST(PeakToValley, FindsThePeakOfACombOfManyWaves) {
  std::vector<Harmonic> comb;
  for (int k = 1; k <= 500; ++k) comb.push_back({k, 1.0, std::fmod(k * 123.456789, 360.0)});
  EXPECT_GT(peak_to_valley_um(comb), 500.0);
  EXPECT_NEAR(peak_to_valley_um(comb), brute_peak_to_valley(comb, 20000), 0.5);
}

RC_GTEST_PROP(PeakToValley, IsNeverMissedByMoreThanAFineGridsOwnError, ()) {
  std::vector<Harmonic> waves;
  double size = 0.0;
  const int count = *rc::gen::inRange(2, 8);
  for (int k = 1; k <= count; ++k) {
    waves.push_back({k, *rc::gen::inRange(0, 1000) / 100.0, *rc::gen::inRange(0, 36000) / 100.0});
    size += waves.back().amplitude_um;
  }
  const double found = peak_to_valley_um(waves);
  const double brute = brute_peak_to_valley(waves);
  RC_ASSERT(found >= brute - 1e-10);
  RC_ASSERT(found <= brute + 1e-6 * (size + 1.0));
}

Trace any_trace() {
  const int count = *rc::gen::inRange(3, 30);
  Trace trace;
  for (int i = 0; i < count; ++i) {
    trace.angles_deg.push_back(*rc::gen::inRange(0, 3600) / 10.0);
    trace.values_um.push_back(*rc::gen::inRange(-50000, 50000) / 1000.0);
  }
  return trace;
}

RC_GTEST_PROP(Circle, ScalingTheReadingsScalesTheFit, ()) {
  const Trace trace = any_trace();
  Trace scaled = trace;
  for (double& value : scaled.values_um) value *= 4.0;
  const CircleFit first = fit_circle(trace, 2);
  const CircleFit second = fit_circle(scaled, 2);
  RC_ASSERT(second.order_used == first.order_used);
  RC_ASSERT(std::abs(second.range_um - 4.0 * first.range_um) <= 1e-9);
  for (std::size_t i = 0; i < first.harmonics.size(); ++i) {
    const double amplitude = first.harmonics[i].amplitude_um;
    RC_ASSERT(std::abs(second.harmonics[i].amplitude_um - 4.0 * amplitude) <= 1e-9 * (1.0 + amplitude));
  }
}

RC_GTEST_PROP(Circle, TurningTheMarkTurnsThePhasesAlone, ()) {
  const double turn_deg = *rc::gen::inRange(0, 3600) / 10.0;
  const int count = *rc::gen::inRange(5, 40);
  const Trace trace = trace_of(even_angles(count), 3.0, {{1, 5.0, 40.0}, {2, 2.0, 200.0}});
  Trace turned = trace;
  for (double& angle : turned.angles_deg) angle += turn_deg;
  const CircleFit fit = fit_circle(turned, 2);
  RC_ASSERT(std::abs(fit.harmonics[0].amplitude_um - 5.0) < 1e-9);
  RC_ASSERT(turn_between(fit.harmonics[0].phase_deg, 40.0 + turn_deg) < 1e-6);
  RC_ASSERT(turn_between(fit.harmonics[1].phase_deg, 200.0 + 2.0 * turn_deg) < 1e-6);
}

RC_GTEST_PROP(Circle, ResidualsAreNoLargerThanThoseOfAnyNearbyCurve, ()) {
  const Trace trace = any_trace();
  const CircleCoefficients fit = circle_coefficients(trace, 2);
  const auto ss = [&](std::vector<double> coefficients) {
    const auto waves = harmonics_of(coefficients);
    double sum = 0.0;
    for (std::size_t i = 0; i < trace.values_um.size(); ++i) {
      sum += std::pow(trace.values_um[i] - curve(coefficients[0], waves, trace.angles_deg[i]), 2);
    }
    return sum;
  };
  // In a variable, because the macro evaluates both sides of || and would read past the end.
  const bool told_apart = fit.values_um.size() < 2 || std::abs(fit.values_um[1]) < 1e4;
  RC_PRE(told_apart);
  const double least = ss(fit.values_um);
  RC_ASSERT(std::abs(least - fit.residual_ss_um2) <= 1e-6 * (1.0 + least));
  for (std::size_t i = 0; i < fit.values_um.size(); ++i) {
    auto moved = fit.values_um;
    moved[i] += 0.1;
    RC_ASSERT(ss(moved) >= least - 1e-6);
  }
}

}  // namespace
}  // namespace brakewright
