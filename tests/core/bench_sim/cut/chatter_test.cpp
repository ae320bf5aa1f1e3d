#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "core/bench_sim/cut/cut.hpp"
#include "core/bench_sim/cut/finish.hpp"
#include "core/chatter/twin_limit.hpp"
#include "core/uncertainty/random.hpp"
#include "tests/core/bench_sim/flat_part.hpp"

namespace brakewright::bench_sim {
namespace {

constexpr double kNose_mm = 0.8, kFeed_mm = 0.007, kRpm = 1200, kForce_n_per_mm2 = 1000;
constexpr double kForce_n_per_m2 = kForce_n_per_mm2 * 1e6;

/// Integral of cos^2 along the arc in contact: what the tool's axial motion works on.
double working_width_mm(double depth_mm) {
  const auto integral = [](double x) {
    const double r = kNose_mm;
    return (x * std::sqrt(r * r - x * x) + r * r * std::asin(x / r)) / (2 * r);
  };
  const double low = kNose_mm - depth_mm;
  return integral(std::sqrt(kNose_mm * kNose_mm - low * low)) + integral(kFeed_mm / 2);
}

/// The depth with that working width.
double depth_mm_of(double width_mm) {
  double low = 0, high = kNose_mm;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (working_width_mm(middle) > width_mm ? high : low) = middle;
  }
  return low;
}

double swing_um(const CutTrace& trace) {
  double mean = 0, squares = 0;
  for (const float give : trace.give_um) mean += static_cast<double>(give);
  mean /= static_cast<double>(trace.give_um.size());
  for (const float give : trace.give_um) squares += std::pow(static_cast<double>(give) - mean, 2);
  return std::sqrt(squares / static_cast<double>(trace.give_um.size()));
}

/// A tool with no depth yet; force in proportion to the chip, and no least chip.
CuttingTool tool_of(const std::optional<chatter::Mode>& holder) { return {.nose = sharp(kNose_mm), .holder = holder}; }

CutSetup setup_of(const std::optional<chatter::Mode>& holder, const std::vector<chatter::Mode>& disc, bool twin) {
  CutSetup setup{.material = {.kc11_n_per_mm2 = kForce_n_per_mm2, .mc = 0},
                 .outboard = tool_of(holder),
                 .disc = disc,
                 .rpm = kRpm,
                 .feed_mm_per_rev = kFeed_mm};
  if (twin) setup.inboard = setup.outboard;
  return setup;
}

/// By what a small vibration is multiplied in a turn, once the cut is as wide as it gets.
/// @param waves  of the mode in a turn, for angles enough
double growth_in_a_turn(CutSetup setup, double width_mm, double waves) {
  const double depth_mm = depth_mm_of(width_mm);
  const double reach_mm = std::sqrt(2 * kNose_mm * depth_mm);
  const int entry = static_cast<int>(reach_mm / kFeed_mm) + 4;
  const int settle = 6, watched = 25;
  const double way_mm = (entry + settle + watched) * kFeed_mm;
  SimPart part = flat_part({.angles = static_cast<int>(18 * waves) + 1,
                            .rings = static_cast<int>(way_mm / 0.015) + 2,
                            .inner_radius_mm = 90,
                            .ring_step_mm = 0.015});
  setup.outboard->tip_um = -1000 * depth_mm;
  if (setup.inboard) setup.inboard->tip_um = -1000 * depth_mm;
  setup.start_radius_mm = 90 - reach_mm;
  Cut cut(part, setup);
  const int angles = part.grid.angles;
  cut.advance(angles * entry);
  cut.knock_disc(30);
  cut.advance(angles * settle);
  const double before = swing_um(cut.trace(Side::outboard));
  cut.advance(angles * watched);
  return std::pow(swing_um(cut.trace(Side::outboard)) / before, 1.0 / watched);
}

/// The working width at which vibration neither grows nor dies.
double found_limit_mm(const CutSetup& setup, double guess_mm, double waves) {
  double low = 0.6 * guess_mm, high = 1.5 * guess_mm;
  for (int i = 0; i < 9; ++i) {
    const double middle = (low + high) / 2;
    (growth_in_a_turn(setup, middle, waves) > 1 ? high : low) = middle;
  }
  return (low + high) / 2;
}

/// A disc whose lobes allow one tool this width at this speed.
chatter::Mode disc_of(Random& random, double waves, double width_mm) {
  chatter::Mode disc{.k_n_per_m = 1e7, .zeta = 0.02 + 0.03 * random.uniform(), .fn_hz = waves * kRpm / 60};
  disc.k_n_per_m *= width_mm / chatter::limit_of_one_mode(disc, kForce_n_per_m2, kRpm).depth_mm;
  return disc;
}

TEST(CutChatter, VibrationGrowsATenthAboveTheLobesAndDiesATenthBelow) {
  Random random(61);
  for (int trial = 0; trial < 500; ++trial) {
    const double waves = 5 + 3 * random.uniform(), limit_mm = 0.42 + 0.1 * random.uniform();
    const CutSetup setup = setup_of({}, {disc_of(random, waves, limit_mm)}, false);
    EXPECT_GT(growth_in_a_turn(setup, 1.1 * limit_mm, waves), 1) << trial << ' ' << waves << ' ' << limit_mm;
    EXPECT_LT(growth_in_a_turn(setup, 0.9 * limit_mm, waves), 1) << trial << ' ' << waves << ' ' << limit_mm;
  }
}

TEST(CutChatter, ADampingBandIsWorthItsFactor) {
  Random random(62);
  for (int trial = 0; trial < 5; ++trial) {
    const double waves = 5 + 3 * random.uniform(), limit_mm = 0.45;
    chatter::Mode bare = disc_of(random, waves, limit_mm);
    bare.zeta /= 3;
    CutSetup setup = setup_of({}, {bare}, false);
    const double bare_mm = chatter::limit_of_one_mode(bare, kForce_n_per_m2, kRpm).depth_mm;
    ASSERT_LT(bare_mm, 0.8 * limit_mm);
    EXPECT_NEAR(found_limit_mm(setup, bare_mm, waves) / bare_mm, 1, 0.12) << waves;
    setup.band_factor = 3;
    EXPECT_NEAR(found_limit_mm(setup, limit_mm, waves) / limit_mm, 1, 0.1) << waves;
  }
}

TEST(CutChatter, TwoToolsOnAFlexibleDiscHaveHalfTheLimitOfOne) {
  Random random(63);
  for (int trial = 0; trial < 6; ++trial) {
    const double waves = 5 + 3 * random.uniform(), limit_mm = 0.45 + 0.05 * random.uniform();
    const chatter::Mode disc = disc_of(random, waves, limit_mm);
    const double one_mm = found_limit_mm(setup_of({}, {disc}, false), limit_mm, waves);
    const double two_mm = found_limit_mm(setup_of({}, {disc}, true), limit_mm / 2, waves);
    EXPECT_NEAR(one_mm / limit_mm, 1, 0.1);
    EXPECT_NEAR(two_mm / one_mm, 0.5, 0.03) << waves << ' ' << disc.zeta;
  }
}

/// The least over the modes of the pair, at the speed of the cut.
double twin_limit_mm(const chatter::Mode& holder, chatter::Mode disc) {
  disc.weight *= 2;
  const double rpm[] = {kRpm};
  const chatter::Mode opposed[] = {holder, disc};
  const auto with_disc = chatter::limits(opposed, kForce_n_per_m2, rpm).front();
  const auto without = chatter::limits({&holder, 1}, kForce_n_per_m2, rpm).front();
  return std::min(with_disc->depth_mm, without->depth_mm);
}

TEST(CutChatter, TwoToolsOnSpringsAndTheDiscGrowAndDieWhereTheirModesSay) {
  Random random(64);
  for (int trial = 0; trial < 60; ++trial) {
    const double waves = 5 + 3 * random.uniform(), limit_mm = 0.42 + 0.1 * random.uniform();
    chatter::Mode holder{.k_n_per_m = 1.5e7, .zeta = 0.05, .fn_hz = (0.4 + 0.4 * random.uniform()) * waves * kRpm / 60};
    chatter::Mode disc{.k_n_per_m = 3e7, .zeta = 0.02 + 0.02 * random.uniform(), .fn_hz = waves * kRpm / 60};
    const double softer = limit_mm / twin_limit_mm(holder, disc);
    holder.k_n_per_m *= softer;
    disc.k_n_per_m *= softer;
    ASSERT_NEAR(twin_limit_mm(holder, disc), limit_mm, 1e-6);
    const CutSetup setup = setup_of(holder, {disc}, true);
    EXPECT_GT(growth_in_a_turn(setup, 1.1 * limit_mm, waves), 1) << trial << ' ' << waves;
    EXPECT_LT(growth_in_a_turn(setup, 0.9 * limit_mm, waves), 1) << trial << ' ' << waves;
  }
}

TEST(CutChatter, AtBenchSpeedTheAbsoluteTwinLimitIsNearlyTheLimit) {
  const chatter::Mode holder{.k_n_per_m = 3e7, .zeta = 0.04, .fn_hz = 300};
  chatter::Mode disc{.k_n_per_m = 1.2e7, .zeta = 0.03, .fn_hz = 520};
  const double absolute_mm =
      chatter::twin_limit({.tool = holder, .disc = disc, .kf_n_per_m2 = kForce_n_per_m2}).least().depth_mm;
  CutSetup setup = setup_of(holder, {disc}, true);
  setup.rpm = 400;
  const double waves = disc.fn_hz * 60 / setup.rpm;
  EXPECT_GT(growth_in_a_turn(setup, 1.1 * absolute_mm, waves), 1);
  EXPECT_LT(growth_in_a_turn(setup, 0.9 * absolute_mm, waves), 1);
}

/// A feed that leaves what one turn cut: under a slow one the next turns take the crests, and leave a finer pattern.
TEST(CutChatter, TheMarksLeftHaveTheLobesFrequency) {
  Random random(65);
  for (int trial = 0; trial < 10; ++trial) {
    const double waves = 25 + 15 * random.uniform(), limit_mm = 0.35;
    const chatter::Mode disc = disc_of(random, waves, limit_mm);
    CutSetup setup = setup_of({}, {disc}, false);
    SimPart part = flat_part({.angles = 720, .rings = 400, .inner_radius_mm = 90, .ring_step_mm = 0.01});
    setup.feed_mm_per_rev = 0.06;
    setup.outboard->tip_um = -1000 * depth_mm_of(1.25 * limit_mm);
    setup.start_radius_mm = 90 - kNose_mm / 2;
    Cut cut(part, setup);
    cut.advance(720 * 55);
    cut.settle();
    const auto marks = face_marks(part.grid, part.outboard, 92.2);
    ASSERT_TRUE(marks) << trial;
    const double per_turn = chatter::limit_of_one_mode(disc, kForce_n_per_m2, kRpm).chatter_hz * 60 / kRpm;
    EXPECT_NEAR(marks->per_turn / per_turn, 1, 0.03) << waves;
    EXPECT_LT(marks->p_chance, 1e-3);
    EXPECT_GT(marks->height_um, 0.05);
  }
}

TEST(CutChatter, OpposedThrustsOfEqualToolsLeaveTheDiscWhereItWas) {
  const chatter::Mode disc{.k_n_per_m = 5e7, .zeta = 0.05, .fn_hz = 200};
  CutSetup setup = setup_of({}, {disc}, true);
  SimPart part = flat_part({.angles = 120, .rings = 200, .inner_radius_mm = 90, .ring_step_mm = 0.01});
  setup.start_radius_mm = 90;
  setup.outboard->tip_um = setup.inboard->tip_um = -80;
  Cut cut(part, setup);
  cut.advance(120 * 30);
  EXPECT_GT(report_of(cut.trace(Side::outboard)).mean_thrust_n, 0.5);
  EXPECT_EQ(cut.disc_um(), 0);
  EXPECT_EQ(part.outboard.height_um, part.inboard.height_um);
}

}  // namespace
}  // namespace brakewright::bench_sim
