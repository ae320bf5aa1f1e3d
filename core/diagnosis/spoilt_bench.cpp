#include "core/diagnosis/spoilt_bench.hpp"

#include <cmath>

namespace brakewright::diagnosis {
namespace {

using practice::Fault;

double evenly(Random& random, double low, double high) { return low + (high - low) * random.uniform(); }

/// From low to high in equal ratios.
double in_ratio(double share, double low, double high) { return low * std::pow(high / low, share); }

double some_angle(Random& random) { return 360 * random.uniform(); }

/// What no bench is free of.
void draw_fair_bench(SpoiltBench& bench, Random& random) {
  const double mid = (bench.make.shape.band_inner_radius_mm + bench.make.shape.band_outer_radius_mm) / 2;
  bench.faults.thickness_mm = bench.make.new_thickness_mm - evenly(random, 0.2, 1);
  bench.faults.wobble = bench_sim::Lean{.runout_um = evenly(random, 10, 120), .high_deg = some_angle(random)};
  bench.faults.variation = bench_sim::ThicknessWaves{.waves = {{.order = 1 + static_cast<int>(random.below(4)),
                                                                .amplitude_um = evenly(random, 2, 14),
                                                                .phase_deg = some_angle(random)}},
                                                     .outboard_share = random.uniform()};
  bench.faults.taper_um = evenly(random, -20, 40);
  bench.faults.seat = bench_sim::Lean{.runout_um = evenly(random, 0, 5), .high_deg = some_angle(random)};
  bench.faults.cheek_difference_mm = 0.06 * random.normal();
  bench.mount.seed = random.below(1ULL << 40);
  bench.mount.faults.arbor = {
      .shoulder_runout_um = evenly(random, 0, 3), .shoulder_radius_mm = 30, .high_deg = some_angle(random)};
  bench.mount.faults.bore_offset_mm = evenly(random, 0, 0.03);
  bench.mount.faults.bore_offset_deg = some_angle(random);
  bench.mount.faults.seating_sd_um = evenly(random, 0, 1.5);
  bench.nose_radius_mm = random.uniform() < 0.5 ? 0.4 : 0.8;
  bench.edge_radius_um = evenly(random, 5, 12);
  bench.wear_mm = evenly(random, 0, 0.05);
  bench.feed_mm_per_rev = evenly(random, 0.05, 0.11);
  bench.holder_k_n_per_m = evenly(random, 3e6, 8e6);
  const double depth_um = evenly(random, 70, 150);
  bench.depth_um = {depth_um + 6 * random.normal(), depth_um + 6 * random.normal()};
  bench.slide_um_per_mm = 0.03 * random.normal();
  bench.dial_error_um = 4 * random.normal();
  bench.waves_per_turn = evenly(random, 40, 110);
  bench.over_limit = evenly(random, 2.6, 3.5);
  bench.band_factor = evenly(random, 4, 9);
  bench.temperature_rise_k = evenly(random, 0, 3);
  bench.micrometer = {.resolution_mm = 0.001,
                      .zero_error_mm = 0.0008 * random.normal(),
                      .repeatability_mm = evenly(random, 0.0004, 0.0012)};
  bench.first_zero_error_mm = bench.micrometer.zero_error_mm;
  bench.indicator = {
      .resolution_um = 1, .repeatability_um = evenly(random, 0.3, 1), .creep_um_per_turn = 0.6 * random.normal()};
  bench.hub = {.runout_um = evenly(random, 3, 20) * mid / 110, .high_deg = some_angle(random)};
}

void spoil_mount(SpoiltBench& bench, Random& random) {
  bench_sim::MountFaults& faults = bench.mount.faults;
  const double seat_mm = bench.make.shape.seat.flat_outer_mm / 2;
  if (bench.cause == Fault::dirty_seat) {
    faults.dirt = {{.bump = {.height_um = in_ratio(bench.size, 15, 100),
                             .radius_mm = seat_mm * evenly(random, 0.75, 1),
                             .angle_deg = some_angle(random)},
                    .on_the_part = random.uniform() < 0.6}};
  } else if (bench.cause == Fault::bent_arbor) {
    faults.arbor.shoulder_runout_um = in_ratio(bench.size, 8, 40);
  } else if (bench.cause == Fault::wrong_cone) {
    faults.bore_offset_mm = in_ratio(bench.size, 0.1, 0.6);
  } else if (bench.cause == Fault::pitted_races) {
    faults.seating_sd_um = in_ratio(bench.size, 10, 60);
    if (random.uniform() < 0.5) bench.indicator.creep_um_per_turn = 8 * random.normal();
  } else if (bench.cause == Fault::loose_nut) {
    faults.nut = bench_sim::LooseNut{.axial_sd_um = in_ratio(bench.size, 15, 100),
                                     .tilt_sd_um = in_ratio(bench.size, 6, 40),
                                     .mean_turns = evenly(random, 60, 200)};
    if (random.uniform() < 0.6) bench.indicator.creep_um_per_turn = 8 * random.normal();
  }
}

void spoil_cut(SpoiltBench& bench, Random& random) {
  if (bench.cause == Fault::worn_edge) {
    bench.wear_mm = in_ratio(bench.size, 0.15, 0.6);
    bench.slide_um_per_mm += evenly(random, 0, 0.25) * bench.wear_mm / 0.6;
  } else if (bench.cause == Fault::no_band) {
    bench.band_factor = 1;
    bench.over_limit = in_ratio(bench.size, 2.6, 3.5);
  } else if (bench.cause == Fault::coarse_feed) {
    bench.feed_mm_per_rev = std::min(in_ratio(bench.size, 0.18, 0.4), 0.9 * bench.nose_radius_mm);
  } else if (bench.cause == Fault::taper) {
    // Thickness grows by both faces.
    const double band_mm = bench.make.shape.band_outer_radius_mm - bench.make.shape.band_inner_radius_mm;
    const double taper_um = in_ratio(bench.size, 15, 90);
    bench.slide_um_per_mm = (random.uniform() < 0.75 ? 0.5 : -0.5) * taper_um / band_mm;
  } else if (bench.cause == Fault::lip) {
    const double lip_um = in_ratio(bench.size, 80, 600);
    bench.faults.lip = bench_sim::EdgeLip{.outboard_um = lip_um, .inboard_um = lip_um * evenly(random, 0.3, 1)};
    bench.lip_left = true;
  } else if (bench.cause == Fault::uneven_cheeks) {
    const double side = random.uniform() < 0.5 ? 1 : -1;
    const double unequal_mm = in_ratio(bench.size, 0.3, 1.2);
    const double by_cut_um = random.uniform() < 0.5 ? 1000 * std::min(0.3, unequal_mm) : 0;
    bench.depth_um[side < 0 ? 0 : 1] += by_cut_um;
    bench.faults.cheek_difference_mm = side * (unequal_mm - by_cut_um / 1000);
  }
}

void spoil_part(SpoiltBench& bench, Random& random) {
  if (bench.cause == Fault::hard_spots) {
    std::vector<bench_sim::HardSpot> spots;
    const std::uint64_t count = 2 + random.below(5);
    const double in = bench.make.shape.band_inner_radius_mm, out = bench.make.shape.band_outer_radius_mm;
    for (std::uint64_t i = 0; i < count; ++i) {
      const double diameter_mm = evenly(random, 10, 22);
      spots.push_back({.angle_deg = some_angle(random),
                       .radius_mm = evenly(random, in + diameter_mm / 2, out - diameter_mm / 2),
                       .diameter_mm = diameter_mm,
                       .height_um = in_ratio(bench.size, 10, 50),
                       .hardness = in_ratio(bench.size, 2.5, 9)});
    }
    bench.faults.hard_spots = spots;
  } else if (bench.cause == Fault::warm_part) {
    bench.temperature_rise_k = in_ratio(bench.size, 15, 60);
  } else if (bench.cause == Fault::micrometer_zero) {
    const double zero_mm = (random.uniform() < 0.5 ? 1 : -1) * in_ratio(bench.size, 0.006, 0.05);
    if (random.uniform() < 0.5) bench.first_zero_error_mm = zero_mm;
    bench.micrometer.zero_error_mm = zero_mm;
  }
}

}  // namespace

SpoiltBench spoilt_bench(Random& random) {
  SpoiltBench bench;
  bench.cause = kCauses[random.below(kCauseCount)];
  bench.size = random.uniform();
  do {
    bench.make = bench_sim::make_of_seed(random.below(1ULL << 40));
  } while (bench.make.shape.vent_mm == 0);
  draw_fair_bench(bench, random);
  spoil_mount(bench, random);
  spoil_cut(bench, random);
  spoil_part(bench, random);
  return bench;
}

}  // namespace brakewright::diagnosis
