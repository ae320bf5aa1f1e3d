#include "core/separation/separation.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>
#include <string>

#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright {
namespace {

double curve(const std::vector<Harmonic>& waves, double angle_deg) {
  double value = 0;
  for (const Harmonic& wave : waves) {
    value += wave.amplitude_um * std::cos((wave.order * angle_deg - wave.phase_deg) * std::numbers::pi / 180);
  }
  return value;
}

const std::vector<Harmonic> kHub{{1, 18, 40}, {2, 5, 200}, {3, 2, 10}, {4, 1, 330}};
const std::vector<Harmonic> kPart{{1, 25, 290}, {2, 7, 15}, {3, 3, 120}, {4, 2, 75}};

PositionTrace read_at(double turn_deg, const std::vector<double>& angles_deg, double level_um = 0) {
  PositionTrace position{.turn_deg = turn_deg, .trace = {.angles_deg = angles_deg}};
  for (const double angle : angles_deg) {
    position.trace.values_um.push_back(level_um + curve(kHub, angle) + curve(kPart, angle - turn_deg));
  }
  return position;
}

std::vector<double> even(int count) {
  std::vector<double> angles;
  for (int i = 0; i < count; ++i) angles.push_back(360.0 * i / count);
  return angles;
}

void expect_wave(const std::vector<Harmonic>& found, const Harmonic& truth, double tolerance = 1e-9) {
  for (const Harmonic& wave : found) {
    if (wave.order != truth.order) continue;
    EXPECT_NEAR(wave.amplitude_um, truth.amplitude_um, tolerance) << truth.order;
    EXPECT_NEAR(std::remainder(wave.phase_deg - truth.phase_deg, 360), 0, 100 * tolerance) << truth.order;
    return;
  }
  ADD_FAILURE() << "order " << truth.order << " was not told apart";
}

bool has(const std::vector<Advice>& advice, const std::string& code) {
  for (const Advice& one : advice) {
    if (one.code == code) return true;
  }
  return false;
}

std::string refusal(const SeparationInput& input) {
  try {
    separate(input);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}

TEST(Separation, ThreePositionsTellAllOrdersApartWhateverTheIndicatorsZero) {
  const Separation found = separate(
      {.positions = {read_at(0, even(16), 5), read_at(72, even(16), -20), read_at(216, even(16))}, .max_order = 4});
  EXPECT_TRUE(found.not_separable.empty());
  for (const Harmonic& wave : kHub) expect_wave(found.carrier, wave);
  for (const Harmonic& wave : kPart) expect_wave(found.part, wave);
  EXPECT_NEAR(found.part_runout_um, peak_to_valley_um(kPart), 1e-8);
  EXPECT_NEAR(*found.residual_sd_um, 0, 1e-9);
  EXPECT_EQ(found.dof, 48 - 3 - 16);
}

TEST(Separation, HalfATurnSeparatesOddOrdersAloneAndSaysSo) {
  const Separation found =
      separate({.positions = {read_at(0, even(16)), read_at(180, even(16))}, .max_order = 4, .noise_sd_um = 1});
  EXPECT_EQ(found.not_separable, (std::vector<int>{2, 4}));
  expect_wave(found.carrier, kHub[0]);
  expect_wave(found.part, kPart[2]);
  EXPECT_EQ(found.part.size(), 2U);
  EXPECT_EQ(found.together.size(), 4U);
  EXPECT_TRUE(has(found.advice, "not_separable"));
  ASSERT_TRUE(found.next_turn_deg.has_value());
  const Separation then =
      separate({.positions = {read_at(0, even(16)), read_at(180, even(16)), read_at(*found.next_turn_deg, even(16))},
                .max_order = 4});
  EXPECT_TRUE(then.not_separable.empty());
}

TEST(Separation, OneTraceGivesTheSumOrderByOrderAndNothingElse) {
  const Separation found = separate({.positions = {read_at(72, even(12))}, .max_order = 4});
  EXPECT_TRUE(found.carrier.empty());
  EXPECT_TRUE(found.part.empty());
  EXPECT_EQ(found.not_separable, (std::vector<int>{1, 2, 3, 4}));
  const CircleFit fit = fit_circle(read_at(72, even(12)).trace, 4);
  for (const Harmonic& wave : fit.harmonics) expect_wave(found.together, wave);
  EXPECT_TRUE(has(found.advice, "one_position"));
  EXPECT_TRUE(found.next_turn_deg.has_value());
}

TEST(Separation, FourPointsByEyeCarryTheFirstOrderAndTheCutIsTold) {
  SeparationInput input{.positions = {read_at(0, even(12)), read_at(144, even(4))}, .max_order = 5};
  const Separation found = separate(input);
  EXPECT_EQ(found.order_used, 5);
  EXPECT_EQ(found.positions[1].order_used, 1);
  EXPECT_EQ(found.not_separable, (std::vector<int>{2, 3, 4, 5}));
  EXPECT_TRUE(has(found.advice, "few_angles"));
  EXPECT_EQ(found.carrier.size(), 1U);
}

TEST(Separation, UnevenAnglesGiveBackTheTruthToo) {
  const std::vector<double> first{3, 25, 61, 100, 134, 190, 205, 260, 299, 340, 351};
  const std::vector<double> second{10, 41, 77, 90, 150, 171, 222, 246, 281, 333};
  const Separation found =
      separate({.positions = {read_at(0, first), read_at(90, second), read_at(210, first)}, .max_order = 4});
  for (const Harmonic& wave : kHub) expect_wave(found.carrier, wave, 1e-7);
  for (const Harmonic& wave : kPart) expect_wave(found.part, wave, 1e-7);
}

TEST(Separation, ALittleTurnTellsApartWeaklyAndSaysBySoMuch) {
  const Separation found =
      separate({.positions = {read_at(0, even(8)), read_at(10, even(8))}, .max_order = 1, .noise_sd_um = 1});
  EXPECT_TRUE(has(found.advice, "weak"));
  EXPECT_NEAR(*found.orders[0].gain, 1 / std::sin(5 * std::numbers::pi / 180), 1e-9);
  EXPECT_NEAR(*found.part[0].u_amplitude_um, *found.orders[0].gain * std::sqrt(2.0 / 16), 1e-6);
  expect_wave(found.part, kPart[0], 1e-7);
}

TEST(Separation, ThatPositionsDoNotRepeatComesOut) {
  SeparationInput input{.positions = {read_at(0, even(12)), read_at(120, even(12)), read_at(240, even(12))},
                        .max_order = 4,
                        .noise_sd_um = 1};
  EXPECT_GT(*separate(input).p_repeats, 0.99);
  for (std::size_t i = 0; i < 12; ++i) {
    input.positions[1].trace.values_um[i] += 15 * std::cos(std::numbers::pi / 6 * static_cast<double>(i));
  }
  const Separation found = separate(input);
  EXPECT_LT(*found.p_repeats, 1e-6);
  EXPECT_TRUE(has(found.advice, "does_not_repeat"));
}

TEST(Separation, UncertaintiesHoldOverManyNoisyReadings) {
  Random random(5);
  const SeparationInput clean{.positions = {read_at(0, even(8)), read_at(72, even(8)), read_at(216, even(8))},
                              .max_order = 2,
                              .noise_sd_um = 2};
  double squares = 0, stated = 0;
  constexpr int kTrials = 2000;
  for (int n = 0; n < kTrials; ++n) {
    SeparationInput noisy = clean;
    for (PositionTrace& position : noisy.positions) {
      for (double& value : position.trace.values_um) value += 2 * random.normal();
    }
    const Separation found = separate(noisy);
    squares += std::pow(found.part[0].amplitude_um - separate(clean).part[0].amplitude_um, 2);
    stated += std::pow(*found.part[0].u_amplitude_um, 2);
  }
  EXPECT_NEAR(std::sqrt(squares / stated), 1, 0.05);
}

TEST(Separation, RefusalsNameTheField) {
  SeparationInput input{.positions = {read_at(0, even(6))}, .max_order = 2};
  EXPECT_EQ(refusal({.positions = {}, .max_order = 1}), "too_few positions");
  input.positions[0].trace.values_um.pop_back();
  EXPECT_EQ(refusal(input), "sizes_differ positions[0].values_um");
  input.positions[0] = read_at(0, even(6));
  input.positions[0].trace.values_um[2] = NAN;
  EXPECT_EQ(refusal(input), "not_finite positions[0].values_um[2]");
  input.positions[0] = read_at(1e6, even(6));
  EXPECT_EQ(refusal(input), "out_of_range positions[0].turn_deg");
  input.positions[0] = read_at(0, {});
  EXPECT_EQ(refusal(input), "missing positions[0].angles_deg");
  input.positions[0] = read_at(0, even(6));
  input.max_order = 0;
  EXPECT_EQ(refusal(input), "out_of_range max_order");
}

RC_GTEST_PROP(Separation, TogetherIsCarrierAndTurnedPartInTheFirstPosition, ()) {
  SeparationInput input{.positions = {}, .max_order = 3};
  const int count = *rc::gen::inRange(1, 5);
  for (int j = 0; j < count; ++j) {
    PositionTrace position = read_at(*rc::gen::inRange(0, 24) * 15.0, even(*rc::gen::inRange(1, 12)));
    for (double& value : position.trace.values_um) value += *rc::gen::inRange(-5, 5);
    input.positions.push_back(position);
  }
  const Separation found = separate(input);
  RC_ASSERT(found.carrier.size() == found.part.size());
  RC_ASSERT(found.carrier.size() + found.not_separable.size() == static_cast<std::size_t>(found.order_used));
  for (std::size_t i = 0; i < found.carrier.size(); ++i) {
    const int k = found.carrier[i].order;
    double turn = 0;
    for (const PositionFigures& position : found.positions) {
      if (position.order_used >= k) {
        turn = position.turn_deg;
        break;
      }
    }
    for (const double angle : {0.0, 31.0}) {
      const double sum = curve({found.carrier[i]}, angle) + curve({found.part[i]}, angle - turn);
      RC_ASSERT(std::abs(sum - curve({found.together[static_cast<std::size_t>(k) - 1]}, angle)) < 1e-6);
    }
  }
}

}  // namespace
}  // namespace brakewright
