#include "core/chatter/lobes.hpp"

#include <cmath>
#include <numbers>

#include "tests/outside/table.hpp"

namespace brakewright::outside {
namespace {

using namespace chatter;

// Source: turning_lobes.csv, the closed form of Tlusty and Altintas in 30 digits, checked there against the rightmost
// root of the delay equation.
TEST(TurningLobes, EveryRowOfTheTableIsMet) {
  const Table table("turning_lobes.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const Mode mode{.k_n_per_m = table.number(row, "k_N_per_m"),
                    .zeta = table.number(row, "zeta"),
                    .fn_hz = table.number(row, "fn_Hz")};
    const double force = table.number(row, "Kf_N_per_m2");
    if (table.text(row, "speed_rpm") == "absolute") {
      const Limit limit = absolute_limit({&mode, 1}, force);
      EXPECT_NEAR(limit.depth_mm, table.number(row, "b_lim_mm"), 1e-9);
      EXPECT_NEAR(limit.chatter_hz, table.number(row, "chatter_freq_Hz"), 1e-6);
      continue;
    }
    const double rpm = table.number(row, "speed_rpm");
    for (const Limit& limit :
         {limit_of_one_mode(mode, force, rpm), limits({&mode, 1}, force, {&rpm, 1}).front().value()}) {
      EXPECT_NEAR(limit.depth_mm, table.number(row, "b_lim_mm"), 6e-10 * limit.depth_mm) << rpm;
      EXPECT_NEAR(limit.chatter_hz, table.number(row, "chatter_freq_Hz"), 1e-7) << rpm;
      EXPECT_EQ(limit.whole_waves, table.number(row, "lobe_j")) << rpm;
    }
  }
}

// Source: turning_two_mode.csv, an exercise of Schmitz and Smith, Machining Dynamics, whose text says about 1.3 mm.
TEST(TurningLobes, TwoModesAtAnglesGiveTheTextbooksLimit) {
  const auto degrees = [](double angle) { return angle * std::numbers::pi / 180; };
  const auto mode = [](double k, double c, double weight) {
    const double wn = std::sqrt(k);  // of 1 kg
    return Mode{.k_n_per_m = k, .zeta = c / (2 * wn), .fn_hz = wn / (2 * std::numbers::pi), .weight = weight};
  };
  const Mode modes[] = {mode(2e7, 450, std::cos(degrees(30)) * std::cos(degrees(35))),
                        mode(3e7, 650, std::cos(degrees(120)) * std::cos(degrees(55)))};
  const Table table("turning_two_mode.csv");
  const Limit limit = absolute_limit(modes, 2e9);
  EXPECT_NEAR(limit.depth_mm, table.number(0, "b_lim_mm"), 1e-9);
  EXPECT_NEAR(limit.chatter_hz, table.number(0, "f_min_re_Hz"), 1e-5);
}

}  // namespace
}  // namespace brakewright::outside
