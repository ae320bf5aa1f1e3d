#include "core/chatter/twin_limit.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "core/input_error.hpp"

namespace brakewright::chatter {
namespace {

const TwinCut kCut{.tool = {.k_n_per_m = 3e7, .zeta = 0.04, .fn_hz = 300},
                   .disc = {.k_n_per_m = 1.2e7, .zeta = 0.006, .fn_hz = 520},
                   .kf_n_per_m2 = 1.5e9};

/// Largest vibration of a turn over that of the turn before, of the two tools and the disc moved on in small steps of
/// time together with what they left on the faces.
double growth(const TwinCut& cut, double depth_mm, double rpm) {
  constexpr int kSteps = 6000, kTurns = 90;
  const double turn_s = 60 / rpm, dt = turn_s / kSteps, push = cut.kf_n_per_m2 * depth_mm / 1000;
  const auto mass = [](const Mode& mode) {
    const double wn = 2 * std::numbers::pi * mode.fn_hz;
    return mode.k_n_per_m / (wn * wn);
  };
  struct Body {
    double k, c, m, x = 0, v = 0;
  };
  const auto body = [&](const Mode& mode) {
    const double m = mass(mode), wn = 2 * std::numbers::pi * mode.fn_hz;
    return Body{.k = mode.k_n_per_m, .c = 2 * mode.zeta * wn * m, .m = m};
  };
  Body a = body(cut.tool), b = body(cut.tool), disc = body(cut.disc);
  disc.v = 1e-3;
  std::vector<double> face_a(kSteps, 0), face_b(kSteps, 0);
  double before = 0, last = 0;
  for (int turn = 0; turn < kTurns; ++turn) {
    double largest = 0;
    for (std::size_t i = 0; i < kSteps; ++i) {
      // outboard tool presses towards -, inboard tool towards +; chips grow as the tool goes into the disc
      const double into_a = -(a.x - disc.x), into_b = b.x - disc.x;
      const double force_a = push * (into_a - face_a[i]), force_b = push * (into_b - face_b[i]);
      face_a[i] = into_a;
      face_b[i] = into_b;
      const auto step = [dt](Body& one, double force) {
        one.v += dt * (force - one.k * one.x - one.c * one.v) / one.m;
        one.x += dt * one.v;
      };
      step(a, force_a);
      step(b, -force_b);
      step(disc, force_b - force_a);
      largest = std::max(largest, std::abs(disc.x));
    }
    before = last;
    last = largest;
  }
  return last / before;
}

TEST(TwinLimit, IsHalfOfOneToolsWhereTheDiscIsTheSofter) {
  const TwinLimit found = twin_limit(kCut);
  EXPECT_NEAR(found.disc_mode.depth_mm / found.single_side.depth_mm, 0.5, 0.01);
  TwinCut stiff = kCut;
  stiff.tool.k_n_per_m = 1e13;
  EXPECT_NEAR(twin_limit(stiff).disc_mode.depth_mm / twin_limit(stiff).single_side.depth_mm, 0.5, 1e-6);
}

TEST(TwinLimit, TheToolsGovernOnADiscThatIsStiff) {
  TwinCut cut = kCut;
  cut.disc.k_n_per_m = 1e12;
  const TwinLimit found = twin_limit(cut);
  EXPECT_NEAR(found.least().depth_mm / found.tools_only.depth_mm, 1, 1e-3);
  EXPECT_NEAR(found.tools_only.depth_mm, 2 * 3e7 * 0.04 * 1.04 / 1.5e9 * 1000, 1e-9);
}

TEST(TwinLimit, TwoToolsAndADiscMovedOnInTimeGrowAboveItAndFallBelow) {
  const double limit_mm = twin_limit(kCut).disc_mode.depth_mm;
  EXPECT_LT(growth(kCut, 0.9 * limit_mm, 600), 1);
  double over = 0;  // the absolute limit is met by some speed near
  for (const double rpm : {600.0, 603.0, 606.0, 609.0}) over = std::max(over, growth(kCut, 1.15 * limit_mm, rpm));
  EXPECT_GT(over, 1);
}

TEST(TwinLimit, RefusalsNameTheField) {
  const auto refused = [](const TwinCut& cut) {
    try {
      twin_limit(cut);
    } catch (const InputError& error) {
      return error.field();
    }
    return std::string("accepted");
  };
  TwinCut bad = kCut;
  bad.disc.zeta = 0;
  EXPECT_EQ(refused(bad), "disc.zeta");
  bad = kCut;
  bad.tool.k_n_per_m = -3;
  EXPECT_EQ(refused(bad), "tool.k_n_per_m");
  bad = kCut;
  bad.kf_n_per_m2 = 0;
  EXPECT_EQ(refused(bad), "kf_n_per_m2");
}

}  // namespace
}  // namespace brakewright::chatter
