#include "core/chatter/stability.hpp"

#include <cmath>
#include <numbers>

#include "core/chatter/lobes.hpp"
#include "tests/outside/table.hpp"

namespace brakewright::outside {
namespace {

using namespace chatter;

InterruptedCutting row_of(const Table& table, std::size_t row, double depth_mm, std::size_t intervals) {
  return {.mode = {.mass_kg = 0.03993, .zeta = 0.011, .fn_hz = 922},
          .rpm = table.number(row, "speed_rpm"),
          .depth_mm = depth_mm,
          .teeth = 2,
          .kt_n_per_m2 = 6e8,
          .kn_n_per_m2 = 2e8,
          .radial_ratio = table.number(row, "radial_ratio_ae_over_D"),
          .direction = table.text(row, "direction") == "up" ? Direction::up : Direction::down,
          .intervals = intervals};
}

// Source: semidiscretization_milling.csv, the one-degree-of-freedom benchmark of Insperger and Stepan; its first-order
// columns by another program.
TEST(InterruptedCuttingBenchmark, TheFirstOrdersOwnFiguresAreMet) {
  const Table table("semidiscretization_milling.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    for (const std::size_t intervals : {40U, 80U, 160U}) {
      EXPECT_NEAR(spectral_radius(row_of(table, row, table.number(row, "axial_depth_mm"), intervals)),
                  table.number(row, "sdm_order1_m" + std::to_string(intervals)), 6e-7)
          << row << ' ' << intervals;
    }
  }
}

// Source: the same table's converged values, Chebyshev collocation of nine digits.
TEST(InterruptedCuttingBenchmark, TheErrorFallsToASixteenthWithFourTimesTheIntervals) {
  const Table table("semidiscretization_milling.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const double exact = table.number(row, "spectral_radius_exact");
    const auto error = [&](std::size_t intervals) {
      return spectral_radius(row_of(table, row, table.number(row, "axial_depth_mm"), intervals)) - exact;
    };
    const double finest = error(640);
    EXPECT_NEAR(error(160) / finest, 16, 3) << row;
    EXPECT_NEAR(finest / exact, 0, 2e-4) << row;
  }
}

// Source: milling_critical_depth.csv: the same system's first depth at which vibration grows, by Chebyshev collocation.
TEST(InterruptedCuttingBenchmark, GrowsFromTheFirstCriticalDepthOn) {
  const Table table("milling_critical_depth.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const auto radius = [&](double depth_mm) {
      const auto with = [&](std::size_t intervals) { return spectral_radius(row_of(table, row, depth_mm, intervals)); };
      return (4 * with(160) - with(80)) / 3;  // the error falls with the square of the intervals
    };
    const double told_mm = table.number(row, "first_critical_depth_mm");
    for (double below = 0.02; below < told_mm - 0.01; below += 0.1) EXPECT_LT(radius(below), 1) << row << ' ' << below;
    EXPECT_LT(radius(0.999 * told_mm), 1) << row;
    EXPECT_GT(radius(1.001 * told_mm), 1) << row;
  }
}

// Source: delayed_mathieu.csv, Chebyshev collocation of twelve digits; Insperger and Stepan, Proc. R. Soc. A 458
// (2002).
TEST(DelayedMathieu, EveryRowIsApproachedAtTheRateOfTheOrder) {
  const Table table("delayed_mathieu.csv");
  const auto radius = [&](std::size_t row, std::size_t intervals) {
    DelayedOscillator mathieu{.damping_per_s = table.number(row, "a1"),
                              .period_s = 2 * std::numbers::pi,
                              .stiffness_per_s2 = {},
                              .delayed_per_s2 = std::vector<double>(intervals, table.number(row, "b"))};
    const double dt = mathieu.period_s / static_cast<double>(intervals);
    for (std::size_t i = 0; i < intervals; ++i) {
      const double from = dt * static_cast<double>(i);
      mathieu.stiffness_per_s2.push_back(table.number(row, "delta") +
                                         table.number(row, "epsilon") * (std::sin(from + dt) - std::sin(from)) / dt);
    }
    return spectral_radius(mathieu);
  };
  for (std::size_t row = 0; row < table.size(); ++row) {
    const double exact = table.number(row, "spectral_radius");
    const double coarse = radius(row, 100) - exact, fine = radius(row, 200) - exact;
    EXPECT_NEAR(coarse / fine, 4, 0.2) << row;
    EXPECT_NEAR(fine / exact, 0, 2e-4) << row;
    EXPECT_NEAR(fine - (coarse - fine) / 3, 0, 2e-6) << row;
  }
}

// Source: turning_lobes.csv, the closed form: just under its limit vibration dies out, just over it grows.
TEST(TurningStability, TurnsAtTheLobesAtBenchSpeedsToo) {
  const Table table("turning_lobes.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (table.text(row, "speed_rpm") == "absolute") continue;
    const double fn = table.number(row, "fn_Hz"), wn = 2 * std::numbers::pi * fn;
    Turning turning{
        .mode = {.mass_kg = table.number(row, "k_N_per_m") / (wn * wn), .zeta = table.number(row, "zeta"), .fn_hz = fn},
        .rpm = table.number(row, "speed_rpm"),
        .depth_mm = 0.995 * table.number(row, "b_lim_mm"),
        .kf_n_per_m2 = table.number(row, "Kf_N_per_m2"),
        .intervals = 0};
    turning.intervals = static_cast<std::size_t>(std::max(400.0, 80 * waves_per_period(turning)));
    EXPECT_LT(spectral_radius(turning), 1) << turning.rpm;
    turning.depth_mm *= 1.005 / 0.995;
    EXPECT_GT(spectral_radius(turning), 1) << turning.rpm;
  }
}

}  // namespace
}  // namespace brakewright::outside
