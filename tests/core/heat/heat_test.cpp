#include "core/heat/heat.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>
#include <string>

#include "core/input_error.hpp"

namespace brakewright::heat {
namespace {

constexpr Material kIron{.k_w_mk = 48, .rho_kg_m3 = 7200, .c_j_kgk = 500};

HeatInput plain() {
  HeatInput input;
  input.t_stop_s = 4;
  input.material = kIron;
  input.q0_w_m2 = 2e6;
  input.half_thickness_mm = 6;
  return input;
}

HeatInput car() {
  HeatInput input;
  input.t_stop_s = 4;
  input.vehicle =
      Vehicle{.mass_kg = 1400,
              .speed_km_per_h = 100,
              .disc_share = 0.35,
              .disc = {.outer_radius_mm = 140, .inner_radius_mm = 85, .thickness_mm = 22, .cheek_thickness_mm = 7}};
  input.vented = true;
  return input;
}

std::string refusal(const HeatInput& input) {
  try {
    heat_of_stop(input);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}

TEST(Slab, TheSeriesMeetsTheThickBodyWhereTheHeatHasNotReachedTheMiddle) {
  const Stop stop{.q0_w_m2 = 2e6, .t_stop_s = 4};
  for (const double depth_mm : {5.0, 20.0, 100.0}) {
    const double unit_s = depth_mm * depth_mm * 1e-6 / kIron.diffusivity_m2_s();
    const double before = 0.0399 * unit_s, after = 0.0401 * unit_s;
    if (after > stop.t_stop_s) continue;
    EXPECT_NEAR(slab_rises(kIron, depth_mm, stop, before).surface_k, thick_rise_k(kIron, stop, before), 1e-7);
    EXPECT_NEAR(slab_rises(kIron, depth_mm, stop, after).surface_k, thick_rise_k(kIron, stop, after), 1e-7);
  }
}

TEST(Slab, AllHeatIsInTheBulkAndASoakedSlabIsEvenlyWarm) {
  const Stop stop{.q0_w_m2 = 1e5, .t_stop_s = 400};
  const Rises end = slab_rises(kIron, 1, stop, 400);
  EXPECT_NEAR(end.bulk_k, 1e5 * 400 / 2 / (7200 * 500 * 0.001), 1e-9);
  EXPECT_NEAR(end.surface_k, end.bulk_k, 0.01);
  EXPECT_NEAR(end.midplane_k, end.bulk_k, 0.01);
}

TEST(Slab, TheThickBodyIsHottestAtHalfTheStop) {
  const Stop stop{.q0_w_m2 = 3e6, .t_stop_s = 5};
  EXPECT_NEAR(thick_rise_max_k(kIron, stop) / (3e6 * std::sqrt(5 / (48.0 * 7200 * 500))), 0.5319, 5e-5);
  EXPECT_GT(thick_rise_k(kIron, stop, 2.5), thick_rise_k(kIron, stop, 2.4));
  EXPECT_GT(thick_rise_k(kIron, stop, 2.5), thick_rise_k(kIron, stop, 2.6));
  EXPECT_NEAR(slab_peak(kIron, 100, stop).t_s, 2.5, 1e-6);
}

TEST(Heat, FluxOfTheVehicleIsTwiceItsMeanOverBothFaces) {
  HeatInput input = car();
  const Heat found = heat_of_stop(input);
  const double energy = 1400 * std::pow(100 / 3.6, 2) / 2 * 0.35 * 0.93;
  EXPECT_NEAR(found.energy_j, energy, 1e-6);
  const double area = 2 * std::numbers::pi * (0.14 * 0.14 - 0.085 * 0.085);
  EXPECT_NEAR(found.q0_w_m2, 2 * energy / (area * 4), 1e-6);
  EXPECT_EQ(found.stop.depth_mm, 7);
  EXPECT_TRUE(found.material_assumed);
  EXPECT_NEAR(found.stop.rise_bulk_end_k, energy / (7200 * 460 * area * 0.007), 1e-9);
  ASSERT_TRUE(found.stop.rise_surface_max_band_k.has_value());
  EXPECT_LT(found.stop.rise_surface_max_band_k->low, found.stop.rise_surface_max_k);
  EXPECT_GT(found.stop.rise_surface_max_band_k->high, found.stop.rise_surface_max_k);
}

TEST(Heat, AThinnerCheekGetsHotter) {
  HeatInput input = car();
  input.before_depth_mm = 7;
  input.after_depth_mm = 6.6;
  const Heat found = heat_of_stop(input);
  EXPECT_GT(found.after->rise_surface_max_k, found.before->rise_surface_max_k);
  EXPECT_EQ(found.advice.back().code, "cut_changes");
  EXPECT_EQ(found.advice.front().code, "thin");
}

TEST(Heat, RepeatedStopsClimbToWhereTheySettleAndMoreCoolingIsCooler) {
  HeatInput input = car();
  input.repeats = Repeats{.stops = 60, .interval_s = 60};
  const RepeatedStops found = *heat_of_stop(input).repeats;
  EXPECT_EQ(found.stops.front().start_c.low, 20);
  for (std::size_t i = 1; i < found.stops.size(); ++i) {
    EXPECT_GE(found.stops[i].surface_max_c.low, found.stops[i - 1].surface_max_c.low);
    EXPECT_LE(found.stops[i].surface_max_c.low, found.stops[i].surface_max_c.high);
  }
  EXPECT_LT(found.stops.back().surface_max_c.high, found.settles_at_c->high);
  EXPECT_NEAR(found.stops.back().surface_max_c.low, found.settles_at_c->low, 1);
  input.repeats->interval_s = input.t_stop_s;
  EXPECT_FALSE(heat_of_stop(input).repeats->settles_at_c.has_value());
}

TEST(Heat, RefusalsNameTheField) {
  HeatInput input = plain();
  input.t_stop_s = 0;
  EXPECT_EQ(refusal(input), "out_of_range t_stop_s");
  input = plain();
  input.q0_w_m2.reset();
  EXPECT_EQ(refusal(input), "missing q0_w_m2");
  input = plain();
  input.half_thickness_mm = NAN;
  EXPECT_EQ(refusal(input), "not_finite half_thickness_mm");
  input = plain();
  input.vehicle = car().vehicle;
  EXPECT_EQ(refusal(input), "out_of_range q0_w_m2");
  input = car();
  input.vehicle->disc.inner_radius_mm = 140;
  EXPECT_EQ(refusal(input), "out_of_range vehicle.disc.inner_radius_mm");
  input = car();
  input.repeats = Repeats{.stops = 3, .interval_s = 1};
  EXPECT_EQ(refusal(input), "out_of_range repeats.interval_s");
}

RC_GTEST_PROP(Slab, NoSlabIsCoolerThanTheThickBodyOrThanItsOwnMiddleWhileTheFluxIsLarge, ()) {
  const double depth_mm = *rc::gen::inRange(2, 400) * 0.1, t_stop_s = *rc::gen::inRange(1, 200) * 0.1;
  const Stop stop{.q0_w_m2 = 1e6, .t_stop_s = t_stop_s};
  const double share = *rc::gen::inRange(0, 101) * 0.01;
  const Rises rises = slab_rises(kIron, depth_mm, stop, share * t_stop_s);
  RC_ASSERT(rises.surface_k >= thick_rise_k(kIron, stop, share * t_stop_s) - 1e-6);
  RC_ASSERT(rises.bulk_k >= 0);
  if (share <= 0.5) RC_ASSERT(rises.surface_k >= rises.midplane_k - 1e-9);
  RC_ASSERT(slab_peak(kIron, depth_mm, stop).rise_k >= rises.surface_k - 1e-6);
}

}  // namespace
}  // namespace brakewright::heat
