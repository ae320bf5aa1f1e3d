#include "core/heat/heat.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/heat/check.hpp"
#include "core/thickness/figures.hpp"

namespace brakewright::heat {
namespace {

constexpr int kMoments = 40;
constexpr double kVeryHot_c = 500;

double energy_j(const Vehicle& vehicle) {
  const double from = vehicle.speed_km_per_h / 3.6, to = vehicle.end_speed_km_per_h / 3.6;
  return vehicle.mass_kg * (from * from - to * to) / 2 * vehicle.disc_share * vehicle.heat_share;
}

double flux_of(const Vehicle& vehicle, double t_stop_s) {
  const Disc& disc = vehicle.disc;
  const double swept_m2 = 2 * std::numbers::pi *
                          (disc.outer_radius_mm * disc.outer_radius_mm - disc.inner_radius_mm * disc.inner_radius_mm) *
                          1e-6;
  return 2 * energy_j(vehicle) / (swept_m2 * t_stop_s);
}

/// What is certain of the flux and the material, and the two ends of what is not.
struct Case {
  Material material, cool, hot;
  double q0 = 0, q0_low = 0, q0_high = 0;
  bool banded = false;
};

Case case_of(const HeatInput& input) {
  Case all;
  all.material = all.cool = all.hot = input.material.value_or(kGreyIron);
  if (!input.material) all.cool = kGreyIronHigh, all.hot = kGreyIronLow;
  if (input.vehicle) {
    all.q0 = flux_of(*input.vehicle, input.t_stop_s);
    const double share = input.vehicle->heat_share;
    all.q0_low = all.q0 * std::min(share, input.vehicle->heat_share_low) / share;
    all.q0_high = all.q0 * std::max(share, input.vehicle->heat_share_high) / share;
  } else {
    all.q0 = all.q0_low = all.q0_high = *input.q0_w_m2;
  }
  all.banded = !input.material || all.q0_low < all.q0_high;
  return all;
}

OneStop one_stop(const Case& all, double depth_mm, double t_stop_s) {
  const Stop stop{.q0_w_m2 = all.q0, .t_stop_s = t_stop_s};
  const Peak peak = slab_peak(all.material, depth_mm, stop);
  const Rises end = slab_rises(all.material, depth_mm, stop, t_stop_s);
  OneStop found{.depth_mm = depth_mm,
                .rise_surface_max_k = peak.rise_k,
                .t_of_max_s = peak.t_s,
                .rise_surface_end_k = end.surface_k,
                .rise_midplane_end_k = end.midplane_k,
                .rise_bulk_end_k = end.bulk_k,
                .rise_semi_infinite_max_k = thick_rise_max_k(all.material, stop),
                .rise_surface_max_band_k = {},
                .curve = {}};
  if (all.banded) {
    found.rise_surface_max_band_k =
        Band{.low = slab_peak(all.cool, depth_mm, {.q0_w_m2 = all.q0_low, .t_stop_s = t_stop_s}).rise_k,
             .high = slab_peak(all.hot, depth_mm, {.q0_w_m2 = all.q0_high, .t_stop_s = t_stop_s}).rise_k};
  }
  for (int i = 0; i <= kMoments; ++i) {
    const double t = t_stop_s * i / kMoments;
    found.curve.push_back({.t_s = t, .rises = slab_rises(all.material, depth_mm, stop, t)});
  }
  return found;
}

/// One end of the band: temperatures at the start, at the hottest and at the end of each stop.
struct Run {
  struct Temperatures {
    double start_c = 0, surface_max_c = 0, end_c = 0;
  };
  std::vector<Temperatures> stops;
  std::optional<double> settles_at_c = {};
};

Run run_of(const Material& material, double q0, double cooling, double depth_mm, const HeatInput& input) {
  const Repeats& repeats = *input.repeats;
  const Stop stop{.q0_w_m2 = q0, .t_stop_s = input.t_stop_s};
  const double peak = slab_peak(material, depth_mm, stop).rise_k;
  const double bulk = slab_rises(material, depth_mm, stop, input.t_stop_s).bulk_k;
  const double rate = (input.vented ? 2 : 1) * cooling / (material.rho_kg_m3 * material.c_j_kgk * depth_mm / 1000);
  const double kept = std::exp(-rate * (repeats.interval_s - input.t_stop_s));
  Run run;
  double start = repeats.start_c;
  for (int i = 0; i < repeats.stops; ++i) {
    run.stops.push_back({.start_c = start, .surface_max_c = start + peak, .end_c = start + bulk});
    start = repeats.ambient_c + (start + bulk - repeats.ambient_c) * kept;
  }
  // start = ambient + (start + bulk - ambient) kept, solved.
  if (kept < 1) run.settles_at_c = repeats.ambient_c + bulk * kept / (1 - kept) + peak;
  return run;
}

RepeatedStops repeated(const Case& all, double depth_mm, const HeatInput& input) {
  const Run cool = run_of(all.cool, all.q0_low, input.repeats->cooling_high_w_m2k, depth_mm, input);
  const Run hot = run_of(all.hot, all.q0_high, input.repeats->cooling_low_w_m2k, depth_mm, input);
  RepeatedStops repeats{.stops = {}, .settles_at_c = {}, .basis = input.repeats->cooling_basis};
  if (cool.settles_at_c && hot.settles_at_c) {
    repeats.settles_at_c = Band{.low = *cool.settles_at_c, .high = *hot.settles_at_c};
  }
  for (std::size_t i = 0; i < cool.stops.size(); ++i) {
    const auto& a = cool.stops[i];
    const auto& b = hot.stops[i];
    repeats.stops.push_back(
        {.t_s = input.repeats->interval_s * static_cast<double>(i),
         .start_c = {std::min(a.start_c, b.start_c), std::max(a.start_c, b.start_c)},
         .surface_max_c = {std::min(a.surface_max_c, b.surface_max_c), std::max(a.surface_max_c, b.surface_max_c)},
         .end_c = {std::min(a.end_c, b.end_c), std::max(a.end_c, b.end_c)}});
  }
  return repeats;
}

void advise(const HeatInput& input, Heat& heat) {
  const OneStop& stop = heat.stop;
  if (stop.rise_semi_infinite_max_k < 0.97 * stop.rise_surface_max_k) {
    heat.advice.push_back(
        {"thin", "The heat reaches the middle during the stop: the formula for a thick disc would say " +
                     std::to_string(std::lround(std::min(stop.rise_semi_infinite_max_k, 1e9))) + " K in place of " +
                     std::to_string(std::lround(std::min(stop.rise_surface_max_k, 1e9))) + " K."});
  }
  double hottest = stop.rise_surface_max_k + (input.repeats ? input.repeats->start_c : 20);
  if (heat.repeats) hottest = std::max(hottest, heat.repeats->stops.back().surface_max_c.high);
  if (hottest > kVeryHot_c) {
    heat.advice.push_back({"very_hot",
                           "Over about 500 C iron and pads no longer have the properties counted with here: the figure "
                           "says hot, not how hot."});
  }
  if (heat.before && heat.after) {
    const double more = heat.after->rise_surface_max_k / heat.before->rise_surface_max_k - 1;
    heat.advice.push_back({"cut_changes", std::string("The thinner disc gets ") +
                                              mm_text(std::round(std::min(std::abs(more), 1e6) * 1000) / 10) + " % " +
                                              (more >= 0 ? "hotter" : "less hot") + " in the same stop."});
  }
}

}  // namespace

Heat heat_of_stop(const HeatInput& input) {
  check(input);
  const Case all = case_of(input);
  Heat heat{.energy_j = input.vehicle ? energy_j(*input.vehicle) : 0,
            .q0_w_m2 = all.q0,
            .material = all.material,
            .material_assumed = !input.material,
            .stop = {},
            .before = {},
            .after = {},
            .repeats = {},
            .repeats_before = {},
            .repeats_after = {},
            .advice = {}};
  const double depth = input.vehicle ? input.vehicle->disc.depth_mm() : *input.half_thickness_mm;
  heat.stop = one_stop(all, depth, input.t_stop_s);
  if (input.repeats) heat.repeats = repeated(all, depth, input);
  if (input.before_depth_mm) {
    heat.before = one_stop(all, *input.before_depth_mm, input.t_stop_s);
    if (input.repeats) heat.repeats_before = repeated(all, *input.before_depth_mm, input);
  }
  if (input.after_depth_mm) {
    heat.after = one_stop(all, *input.after_depth_mm, input.t_stop_s);
    if (input.repeats) heat.repeats_after = repeated(all, *input.after_depth_mm, input);
  }
  advise(input, heat);
  return heat;
}

}  // namespace brakewright::heat
