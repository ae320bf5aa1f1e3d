#include "core/heat/heat.hpp"

#include <cmath>
#include <numbers>
#include <vector>

#include "tests/outside/table.hpp"

namespace brakewright::outside {
namespace {

using namespace heat;

struct Row {
  Material material;
  Stop stop;
  double half_mm = 0;
};

Row row_of(const Table& table, std::size_t row) {
  return {.material = {.k_w_mk = table.number(row, "k_W_mK"),
                       .rho_kg_m3 = table.number(row, "rho_kg_m3"),
                       .c_j_kgk = table.number(row, "c_J_kgK")},
          .stop = {.q0_w_m2 = table.number(row, "q0_W_m2"), .t_stop_s = table.number(row, "t_stop_s")},
          .half_mm = table.number(row, "half_thickness_mm")};
}

// Source: thermal_slab.csv, Fourier series of 300 terms with Duhamel, eight digits.
TEST(ThermalSlab, EveryRowOfTheTableIsMet) {
  const Table table("thermal_slab.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const Row in = row_of(table, row);
    HeatInput input;
    input.t_stop_s = in.stop.t_stop_s;
    input.material = in.material;
    input.q0_w_m2 = in.stop.q0_w_m2;
    input.half_thickness_mm = in.half_mm;
    const OneStop found = heat_of_stop(input).stop;
    EXPECT_NEAR(found.rise_surface_max_k, table.number(row, "dT_surface_max"), 2e-5);
    EXPECT_NEAR(found.t_of_max_s, table.number(row, "t_of_max_s"), 1e-3);
    EXPECT_NEAR(found.rise_surface_end_k, table.number(row, "dT_surface_end"), 1e-5);
    EXPECT_NEAR(found.rise_midplane_end_k, table.number(row, "dT_midplane_end"), 1e-5);
    EXPECT_NEAR(found.rise_bulk_end_k, table.number(row, "dT_bulk_end"), 1e-5);
    EXPECT_NEAR(found.rise_semi_infinite_max_k, table.number(row, "dT_semi_infinite_max"), 1e-5);
    EXPECT_NEAR(slab_rises(in.material, in.half_mm, in.stop, in.stop.t_stop_s / 2).surface_k,
                table.number(row, "dT_surface_at_half_stop"), 1e-5);
  }
}

// Source: Carslaw and Jaeger, constant flux into a slab, sampled by Duhamel's integral as a plain sum of 4,000 small
// steps: the closed form against the same physics by another way.
TEST(ThermalSlab, TheClosedFormIsDuhamelsIntegralOfTheStepResponse) {
  const Material iron{.k_w_mk = 48, .rho_kg_m3 = 7200, .c_j_kgk = 500};
  const Stop stop{.q0_w_m2 = 2e6, .t_stop_s = 4};
  const double depth = 0.006, t = 3.1;
  const auto step_rise = [&](double s) {
    const double fourier = iron.diffusivity_m2_s() * s / (depth * depth);
    double sum = 0;
    for (int n = 1; n <= 400; ++n) {
      sum += std::exp(-n * n * std::numbers::pi * std::numbers::pi * fourier) / (n * n);
    }
    return depth / iron.k_w_mk * (fourier + 1.0 / 3 - 2 / (std::numbers::pi * std::numbers::pi) * sum);
  };
  double rise = stop.q0_w_m2 * step_rise(t);
  constexpr int kSteps = 4000;
  for (int i = 0; i < kSteps; ++i) {
    rise -= stop.q0_w_m2 / stop.t_stop_s * step_rise(t * (i + 0.5) / kSteps) * t / kSteps;
  }
  EXPECT_NEAR(slab_rises(iron, 6, stop, t).surface_k, rise, 2e-3);
}

/// Surface and depth L by Crank-Nicolson on 400 cells.
Rises by_finite_differences(const Material& material, double depth_mm, const Stop& stop, double t_s) {
  constexpr std::size_t kCells = 400, kSteps = 4000;
  const double dx = depth_mm / 1000 / kCells, dt = t_s / kSteps;
  const double number = material.diffusivity_m2_s() * dt / (dx * dx) / 2;
  std::vector<double> rise(kCells + 1, 0), right(kCells + 1), upper(kCells + 1);
  for (std::size_t step = 0; step < kSteps; ++step) {
    const double middle = (static_cast<double>(step) + 0.5) * dt;
    const double flux = stop.q0_w_m2 * (1 - middle / stop.t_stop_s);
    for (std::size_t i = 0; i <= kCells; ++i) {
      const double before = i == 0 ? rise[1] : rise[i - 1], after = i == kCells ? rise[kCells - 1] : rise[i + 1];
      right[i] = rise[i] + number * (before - 2 * rise[i] + after);
    }
    right[0] += 4 * number * dx * flux / material.k_w_mk;
    double pivot = 1 + 2 * number;
    upper[0] = -2 * number / pivot;
    right[0] /= pivot;
    for (std::size_t i = 1; i <= kCells; ++i) {
      const double lower = i == kCells ? -2 * number : -number;
      pivot = 1 + 2 * number - lower * upper[i - 1];
      upper[i] = -number / pivot;
      right[i] = (right[i] - lower * right[i - 1]) / pivot;
    }
    rise[kCells] = right[kCells];
    for (std::size_t i = kCells; i-- > 0;) rise[i] = right[i] - upper[i] * rise[i + 1];
  }
  return {.surface_k = rise.front(), .midplane_k = rise.back(), .bulk_k = 0};
}

// The check's own finite differences (Crank-Nicolson), thin and thick.
TEST(ThermalSlab, FiniteDifferencesAgree) {
  const Material iron{.k_w_mk = 48, .rho_kg_m3 = 7200, .c_j_kgk = 500};
  const Stop stop{.q0_w_m2 = 2e6, .t_stop_s = 4};
  for (const double depth_mm : {5.0, 11.0, 30.0}) {
    for (const double t_s : {0.7, 2.0, 4.0}) {
      const Rises series = slab_rises(iron, depth_mm, stop, t_s);
      const Rises differences = by_finite_differences(iron, depth_mm, stop, t_s);
      EXPECT_NEAR(series.surface_k, differences.surface_k, 0.02) << depth_mm << ' ' << t_s;
      EXPECT_NEAR(series.midplane_k, differences.midplane_k, 0.02) << depth_mm << ' ' << t_s;
    }
  }
}

// Source: Newcomb's case for a thick disc as quoted with sqrt(5/18): the exact constant is 0.9 % higher.
TEST(ThermalSlab, TheRoundedConstantOfTheTradeIsNineInAThousandLow) {
  const Table table("thermal_slab.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const Row in = row_of(table, row);
    EXPECT_NEAR(thick_rise_max_k(in.material, in.stop) / table.number(row, "dT_limpert_sqrt_5_18"), 1.0093, 1e-3);
  }
}

}  // namespace
}  // namespace brakewright::outside
