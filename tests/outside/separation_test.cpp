#include "core/separation/separation.hpp"

#include <numbers>

#include "core/uncertainty/random.hpp"
#include "tests/outside/table.hpp"

namespace brakewright::outside {
namespace {

constexpr double kRadPerDeg = std::numbers::pi / 180;

double wave(double angle_deg, int order, double amplitude_um, double phase_rad) {
  return amplitude_um * std::cos(order * angle_deg * kRadPerDeg - phase_rad);
}

void expect_wave(const std::vector<Harmonic>& found, int order, double amplitude_um, double phase_rad, double tol_um) {
  const auto at = std::find_if(found.begin(), found.end(), [&](const Harmonic& w) { return w.order == order; });
  ASSERT_NE(at, found.end()) << order;
  EXPECT_NEAR(at->amplitude_um, amplitude_um, tol_um) << order;
  EXPECT_LT(std::abs(std::remainder(at->phase_deg * kRadPerDeg - phase_rad, 2 * std::numbers::pi)),
            2 * tol_um / amplitude_um + 1e-9);
}

/// The mid-plane runout of harmonic_disc_a at one of its 72 angles, on a hub of known waves.
PositionTrace disc_on_hub(const Table& disc, std::size_t turned_by) {
  PositionTrace position{.turn_deg = 5.0 * static_cast<double>(turned_by)};
  for (std::size_t i = 0; i < disc.size(); ++i) {
    const std::size_t own = (i + disc.size() - turned_by) % disc.size();
    const double angle = disc.number(i, "angle_deg");
    position.trace.angles_deg.push_back(angle);
    position.trace.values_um.push_back((disc.number(own, "outboard_um") + disc.number(own, "inboard_um")) / 2 +
                                       wave(angle, 1, 14, 0.9) + wave(angle, 2, 3, -2) + wave(angle, 3, 1, 1));
  }
  return position;
}

// Source: harmonic_disc_a, made with known waves of its mid-plane, printed to 0.000001 um; the hub's waves are the
// check's own.
TEST(HarmonicDiscA, ComesApartFromItsHubInThreePositions) {
  const Table disc("harmonic_disc_a.csv"), expected("harmonic_disc_a_expected.csv");
  const Separation found =
      separate({.positions = {disc_on_hub(disc, 0), disc_on_hub(disc, 16), disc_on_hub(disc, 40)}, .max_order = 6});
  int compared = 0;
  for (std::size_t row = 0; row < expected.size(); ++row) {
    if (expected.text(row, "signal") != "midplane_runout") continue;
    expect_wave(found.part, static_cast<int>(expected.number(row, "harmonic")), expected.number(row, "amplitude_um"),
                expected.number(row, "phase_rad"), 1e-5);
    ++compared;
  }
  EXPECT_EQ(compared, 3);
  expect_wave(found.carrier, 1, 14, 0.9, 1e-5);
  expect_wave(found.carrier, 2, 3, -2, 1e-5);
  expect_wave(found.carrier, 3, 1, 1, 1e-5);
  EXPECT_LT(*found.residual_sd_um, 1e-5);
}

TEST(HarmonicDiscA, HalfATurnGivesItsOddOrdersAndNamesTheEvenOnes) {
  const Table disc("harmonic_disc_a.csv");
  const Separation found = separate({.positions = {disc_on_hub(disc, 0), disc_on_hub(disc, 36)}, .max_order = 6});
  EXPECT_EQ(found.not_separable, (std::vector<int>{2, 4, 6}));
  expect_wave(found.part, 1, 22, 2, 1e-5);
  expect_wave(found.carrier, 1, 14, 0.9, 1e-5);
  expect_wave(found.part, 3, 1.5, 0.3, 1e-5);
}

// Source: reversal_roundness, a part and a spindle of known shape: m_normal = part + spindle, m_reversed = part -
// spindle. For odd orders a reversed spindle is one turned by half a turn, so that m_reversed carried on by half a turn
// is the second position of the part; even orders do not come apart that way.
TEST(ReversalRoundness, OddOrdersOfPartAndSpindleAreThoseOfTheKnownCurves) {
  const Table data("reversal_roundness.csv");
  const std::size_t count = data.size();
  PositionTrace first{.turn_deg = 0}, second{.turn_deg = 180};
  Trace part, spindle;
  for (std::size_t i = 0; i < count; ++i) {
    const double angle = data.number(i, "angle_deg");
    for (Trace* trace : {&first.trace, &second.trace, &part, &spindle}) trace->angles_deg.push_back(angle);
    first.trace.values_um.push_back(data.number(i, "m_normal_um"));
    second.trace.values_um.push_back(data.number((i + count / 2) % count, "m_reversed_um"));
    part.values_um.push_back(data.number(i, "part_um"));
    spindle.values_um.push_back(data.number(i, "spindle_um"));
  }
  const Separation found = separate({.positions = {first, second}, .max_order = 15});
  const CircleFit true_part = fit_circle(part, 15), true_spindle = fit_circle(spindle, 15);
  int compared = 0;
  for (std::size_t i = 0; i < found.part.size(); ++i, ++compared) {
    const auto order = static_cast<std::size_t>(found.part[i].order);
    EXPECT_EQ(order % 2, 1U);
    EXPECT_NEAR(found.part[i].amplitude_um, true_part.harmonics[order - 1].amplitude_um, 2e-6);
    EXPECT_NEAR(found.carrier[i].amplitude_um, true_spindle.harmonics[order - 1].amplitude_um, 2e-6);
  }
  EXPECT_EQ(compared, 8);
}

// Known truth: waves drawn at random, two positions with readable noise.
TEST(TwoPositions, KnownTruthLiesWithinTheStatedUncertaintiesAtTheirRate) {
  Random random(404);
  int within = 0, asked = 0;
  for (int n = 0; n < 500; ++n) {
    const double hub = 10 + 20 * random.uniform(), part = 10 + 20 * random.uniform();
    const double hub_phase = 6 * random.uniform(), part_phase = 6 * random.uniform();
    SeparationInput input{.positions = {{.turn_deg = 0}, {.turn_deg = 144}}, .max_order = 1, .noise_sd_um = 1};
    for (PositionTrace& position : input.positions) {
      for (int i = 0; i < 8; ++i) {
        position.trace.angles_deg.push_back(45.0 * i);
        position.trace.values_um.push_back(wave(45.0 * i, 1, hub, hub_phase) +
                                           wave(45.0 * i - position.turn_deg, 1, part, part_phase) + random.normal());
      }
    }
    const Separation found = separate(input);
    within += std::abs(found.part[0].amplitude_um - part) < 1.96 * *found.part[0].u_amplitude_um;
    within += std::abs(found.carrier[0].amplitude_um - hub) < 1.96 * *found.carrier[0].u_amplitude_um;
    asked += 2;
  }
  EXPECT_NEAR(static_cast<double>(within) / asked, 0.95, 0.025);
}

}  // namespace
}  // namespace brakewright::outside
